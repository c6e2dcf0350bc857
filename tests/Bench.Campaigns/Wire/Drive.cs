namespace Bench.Campaigns.Wire;

/// <summary>One time the drive was commanded on, on the wire.</summary>
/// <param name="On">The write that energises.</param>
/// <param name="OffS">When the first write that switches off was handed to the link; infinite when none was.</param>
internal sealed record Drive(CoilWrite On, double OffS)
{
    internal static IReadOnlyList<Drive> Of(Witness witness)
    {
        List<Drive> drives = [];
        for (int i = 0; i < witness.Writes.Count; i++)
        {
            if (witness.Writes[i].Energises)
            {
                CoilWrite? off = witness.Writes.Skip(i + 1).FirstOrDefault(w => !w.Energises);
                drives.Add(new Drive(witness.Writes[i], off?.TimeS ?? double.PositiveInfinity));
            }
        }

        return drives;
    }
}
