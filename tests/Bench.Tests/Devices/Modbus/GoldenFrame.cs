using Xunit.Sdk;

namespace Bench.Tests.Devices.Modbus;

/// <summary>One line of fixtures/modbus/frames.txt: an example of the specification.</summary>
public sealed class GoldenFrame : IXunitSerializable
{
    public string Name { get; private set; } = "";

    public byte[] RequestPdu { get; private set; } = [];

    public byte[] AnswerPdu { get; private set; } = [];

    public byte[] RtuRequest { get; private set; } = [];

    public byte[] RtuAnswer { get; private set; } = [];

    public static TheoryData<GoldenFrame> All
    {
        get
        {
            TheoryData<GoldenFrame> all = [];
            foreach (string line in Lines())
            {
                all.Add(Parse(line));
            }

            return all;
        }
    }

    public static GoldenFrame Named(string name) => Parse(Lines().Single(l => l.StartsWith(name + " |", StringComparison.Ordinal)));

    public void Deserialize(IXunitSerializationInfo info) => CopyFrom(Named(info.GetValue<string>(nameof(Name))!));

    public void Serialize(IXunitSerializationInfo info) => info.AddValue(nameof(Name), Name);

    public override string ToString() => Name;

    private static IEnumerable<string> Lines() =>
        File.ReadAllLines(Path.Combine(Root(), "fixtures", "modbus", "frames.txt")).Where(l => l.Contains('|', StringComparison.Ordinal) && !l.StartsWith('#'));

    private static string Root()
    {
        DirectoryInfo? at = new(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "Bench.sln")))
        {
            at = at.Parent;
        }

        return at?.FullName ?? throw new InvalidOperationException("the tests must run below the folder that holds Bench.sln");
    }

    private static GoldenFrame Parse(string line)
    {
        string[] f = line.Split('|', StringSplitOptions.TrimEntries);
        byte[] request = Bytes(f[2]);
        byte[] rtu = Bytes(f[4]);
        return new GoldenFrame
        {
            Name = f[0],
            RequestPdu = request,
            AnswerPdu = f[3] == "echo" ? request : Bytes(f[3]),
            RtuRequest = rtu,
            RtuAnswer = f[5] == "echo" ? rtu : Bytes(f[5]),
        };
    }

    private static byte[] Bytes(string hex) => Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));

    private void CopyFrom(GoldenFrame other)
    {
        Name = other.Name;
        RequestPdu = other.RequestPdu;
        AnswerPdu = other.AnswerPdu;
        RtuRequest = other.RtuRequest;
        RtuAnswer = other.RtuAnswer;
    }
}
