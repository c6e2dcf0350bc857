using System.Globalization;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Serving;

namespace Bench.Benchmarks.Links;

/// <summary>A child process that serves simulated units in real time, so many to each TCP port; prints the ports.</summary>
internal static class ServedUnits
{
    public static async Task<int> RunAsync(string links, string units)
    {
        Profile profile = ProfileReader.Read(
            await File.ReadAllBytesAsync(Path.Combine(AppContext.BaseDirectory, "nutrient-diverter-4.toml")), "nutrient-diverter-4.toml");
        DriveKind[] drives = [.. Enumerable.Repeat(DriveKind.Reversing, int.Parse(units, CultureInfo.InvariantCulture))];
        for (int i = 0; i < int.Parse(links, CultureInfo.InvariantCulture); i++)
        {
            TcpHost host = TcpHost.Open();
            string text = StandardBench.OnTcpPort("127.0.0.1", host.Port, drives, new DateOnly(2026, 1, 1));
            SimulatedBench bench = new(
                BenchFileReader.Read(text, "bench.toml"),
                Enumerable.Range(1, drives.Length).ToDictionary(
                    StandardBench.Position, n => new SimulatedUnit(profile, new Healthy(), (ulong)n)),
                TimeProvider.System,
                seed: 1);
            host.Serve(bench, StandardBench.Link);
            Console.WriteLine(host.Port);
        }

        Console.WriteLine("ready");
        await Task.Delay(Timeout.Infinite);
        return 0;
    }
}
