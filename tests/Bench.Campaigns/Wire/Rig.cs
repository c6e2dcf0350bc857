using Bench.Model.BenchFiles;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;

namespace Bench.Campaigns.Wire;

/// <summary>What runs of one family on one kind of link share: profile with a short routine, and bench file.</summary>
public sealed class Rig
{
    private static readonly DateOnly CalibratedOn = new(2026, 3, 1);

    private Rig(string family, bool tcp)
    {
        Profile whole = ProfileReader.Read(File.ReadAllText(Path.Combine(Repository.Root, "profiles", family + ".toml")), family + ".toml");
        Profile = whole with
        {
            Routine =
            [
                new Stage { Kind = StageKind.Supply, MostS = 0.2 },
                new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 0, SettleMs = 200 },
                new Stage { Kind = StageKind.PortMoves, MostS = 20, MostMoves = 3, SettleMs = 200 },
                new Stage { Kind = StageKind.Connector, MostS = 3, MostMoves = 3, P0 = 0.005, P1 = 0.2 },
            ],

            // So few moves decide nothing, and then it may be provoked.
            Demonstration = whole.Demonstration with { MostMoves = 3 },
        };
        IsTcp = tcp;
        Bench = BenchFileReader.Read(
            tcp
                ? StandardBench.OnTcpPort("localhost", 502, [Profile.Drive], CalibratedOn)
                : StandardBench.OnSerialPort("/dev/ttyUSB0", [Profile.Drive], CalibratedOn),
            "bench.toml");
    }

    /// <summary>Both families on a serial and on a TCP bench.</summary>
    public static IReadOnlyList<Rig> All { get; } =
    [
        new("nutrient-diverter-4", tcp: false), new("zone-selector-3", tcp: false),
        new("nutrient-diverter-4", tcp: true), new("zone-selector-3", tcp: true),
    ];

    /// <summary>The profile.</summary>
    public Profile Profile { get; }

    /// <summary>Whether the link is TCP.</summary>
    public bool IsTcp { get; }

    /// <summary>The bench file.</summary>
    public BenchFile Bench { get; }
}
