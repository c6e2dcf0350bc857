using System.CommandLine;
using System.CommandLine.Parsing;
using Bench.Cli.Logging;
using Bench.Cli.Output;
using Bench.Cli.Running;
using Bench.Cli.Signals;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Records;
using Bench.Reporting.Text;
using Serilog.Core;

namespace Bench.Cli.Verbs;

/// <summary><c>bench run</c>: tests one unit.</summary>
internal static class RunVerb
{
    private static readonly Option<string> BenchOption = new("--bench") { Description = "Bench file (TOML)", HelpName = "FILE", Required = true };
    private static readonly Option<string> ProfileOption = new("--profile") { Description = "Profile of the unit's family (TOML)", HelpName = "FILE", Required = true };
    private static readonly Option<string> SerialOption = new("--serial") { Description = "Serial number on the unit's label", HelpName = "SN", Required = true };
    private static readonly Option<Symptom> SymptomOption = new("--symptom")
    {
        Description = "What the field reported",
        HelpName = "constant|intermittent",
        Required = true,
        CustomParser = ReadSymptom,
    };

    private static readonly Option<string?> PositionOption = new("--position") { Description = "Unit position of the bench, where it has several", HelpName = "NAME" };
    private static readonly Option<string?> PartOption = new("--part") { Description = "Part number on the unit's label", HelpName = "PN" };
    private static readonly Option<string?> ReturnOption = new("--return-number") { Description = "Number of the return", HelpName = "RN" };
    private static readonly Option<string?> NoteOption = new("--note") { Description = "What the field wrote", HelpName = "TEXT" };
    private static readonly Option<bool> YesOption = new("--yes") { Description = "Confirm cautions and wiring; only for who has checked every line" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        command.Add(BenchOption);
        command.Add(ProfileOption);
        command.Add(SerialOption);
        command.Add(SymptomOption);
        command.Add(PositionOption);
        command.Add(PartOption);
        command.Add(ReturnOption);
        command.Add(NoteOption);
        command.Add(YesOption);
        command.SetGuardedAction(RunAsync);
    }

    // The parser's own would take the number of a value, and any other number.
    private static Symptom ReadSymptom(ArgumentResult argument)
    {
        string text = argument.Tokens.Count == 1 ? argument.Tokens[0].Value : "";
        foreach (Symptom symptom in Enum.GetValues<Symptom>())
        {
            if (text.Equals(BenchJson.Word(symptom), StringComparison.OrdinalIgnoreCase))
            {
                return symptom;
            }
        }

        argument.AddError($"--symptom '{text}': give 'constant' or 'intermittent', as the field reported it");
        return default;
    }

    private static async Task<int> RunAsync(ParseResult options)
    {
        BenchFile bench = UserFiles.Bench(options.GetRequiredValue(BenchOption));
        Profile profile = UserFiles.Profile(options.GetRequiredValue(ProfileOption));
        UnitReturn unit = UnitEntry.Check(
            options.GetValue(SerialOption), options.GetValue(SymptomOption), options.GetValue(PartOption),
            options.GetValue(ReturnOption), options.GetValue(NoteOption), profile);
        UnitPositionDescription position = Snapshots.Choose(bench, options.GetValue(PositionOption), profile);
        string folder = DataFolder.Resolve(options.GetValue(CommonOptions.Data));
        TimeProvider time = TimeProvider.System;

        using StopSignals stop = new();
        using RecordStore store = RecordStore.Open(folder, time);
        using Logger log = RunLog.Open(folder);
        Interruptions.Report(store);
        await using OpenBench devices = await BenchDevices.OpenAsync(bench, new SystemLinkOpener(time), time, stop.Token);

        await devices.IdentifyAsync(stop.Token);

        DateTimeOffset now = time.GetUtcNow();
        RunStart start = new()
        {
            Id = Guid.CreateVersion7(now),
            StartedAt = now,
            Return = unit,
            Bench = Snapshots.Of(bench, position) with { LastDroveHours = store.HoursSinceDriven(bench.Name, position.Name) },
            Profile = profile,
            Software = RunSession.Software,
            Simulated = false,
        };
        RunRecord record;
        using (RunDisplay display = RunDisplay.Open())
        {
            record = await RunSession.RunAsync(
                start, devices.Position(position.Name, profile), store, log, time,
                new ConsoleOperator(options.GetValue(YesOption)), display.Observer, devices.Power, stop.Token);
        }

        SealedRun run = store.Find(record.Start.Id.ToString())!;
        string packet = Packets.Write(run, store.LoadTrace(run), Path.Combine(folder, "packets"));
        if (options.GetValue(CommonOptions.Json))
        {
            Terminal.Json(RunJson.Of(record, packet));
        }
        else
        {
            Terminal.Result(VerdictText.Write(run, Terminal.Width));
            Terminal.Result($"Evidence packet: {packet}");
        }

        return RunExit.CodeOf(record);
    }
}
