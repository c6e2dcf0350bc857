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
        : this(family, tcp, settable: false, metersAll: false)
    {
    }

    private Rig(string family, bool tcp, bool settable, bool metersAll)
    {
        Profile whole = ProfileReader.Read(File.ReadAllText(Path.Combine(Repository.Root, "profiles", family + ".toml")), family + ".toml");
        Profile = whole with
        {
            Routine =
            [
                new Stage { Kind = StageKind.Supply, MostS = 0.2 },
                new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 0, SettleMs = 200 },
                new Stage { Kind = StageKind.PortMoves, MostS = 20, MostMoves = 3, SettleMs = 200 },
                .. settable ? ProvokingStages : [],
                new Stage { Kind = StageKind.Connector, MostS = 3, MostMoves = 3, P0 = 0.005, P1 = 0.2 },
            ],

            // So few moves decide nothing, and then it may be provoked.
            Demonstration = whole.Demonstration with { MostMoves = 3 },
        };
        IsTcp = tcp;
        Bench = BenchFileReader.Read(
            settable ? SupplyBench.Text(Profile.Drive, overTcp: !tcp, metersAll, CalibratedOn)
            : tcp
                ? StandardBench.OnTcpPort("localhost", 502, [Profile.Drive], CalibratedOn)
                : StandardBench.OnSerialPort("/dev/ttyUSB0", [Profile.Drive], CalibratedOn),
            "bench.toml");
        Supply = Bench.Devices.FirstOrDefault(d => d.SupplyVoltageV is not null);

        // Voltage, current and the board's inputs, and what a silent supply has to say.
        MeterExchanges = Supply is null ? 1 : metersAll ? 4 : 3;
    }

    /// <summary>Both families on a serial and on a TCP bench, the supply set by hand or by the run.</summary>
    public static IReadOnlyList<Rig> All { get; } =
    [
        new("nutrient-diverter-4", tcp: false), new("zone-selector-3", tcp: false),
        new("nutrient-diverter-4", tcp: true), new("zone-selector-3", tcp: true),
        new("nutrient-diverter-4", tcp: false, settable: true, metersAll: true), new("zone-selector-3", tcp: false, settable: true, metersAll: false),
        new("nutrient-diverter-4", tcp: true, settable: true, metersAll: false), new("zone-selector-3", tcp: true, settable: true, metersAll: true),
    ];

    private static IEnumerable<Stage> ProvokingStages =>
        new[] { StageKind.Starts, StageKind.LowSupply, StageKind.HighSupply }.Select(k => new Stage { Kind = k, MostS = 10, MostMoves = 2, SettleMs = 200, P0 = 0.005, P1 = 0.2 });

    /// <summary>The profile.</summary>
    public Profile Profile { get; }

    /// <summary>The supply that the run sets; null where it is set by hand.</summary>
    public DeviceDescription? Supply { get; }

    /// <summary>Exchanges that one reading of the meters takes at most.</summary>
    public int MeterExchanges { get; }

    /// <summary>What it is, in a few words.</summary>
    public string Name => $"{Profile.Family}, {(IsTcp ? "TCP" : "serial")}{(Supply is null ? "" : ", supply set")}";

    /// <summary>Whether the board's link is TCP.</summary>
    public bool IsTcp { get; }

    /// <summary>The bench file.</summary>
    public BenchFile Bench { get; }
}
