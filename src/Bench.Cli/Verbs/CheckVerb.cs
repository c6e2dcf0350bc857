using System.CommandLine;
using Bench.Cli.Checking;
using Bench.Cli.Output;
using Bench.Cli.Signals;
using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;

namespace Bench.Cli.Verbs;

/// <summary><c>bench check</c>: grades a bench; finds ports and devices; exercises outputs only when asked and confirmed.</summary>
internal static class CheckVerb
{
    private static readonly Option<string?> BenchOption = new("--bench") { Description = "Bench file (TOML)", HelpName = "FILE" };
    private static readonly Option<string?> ProfileOption = new("--profile") { Description = "Profile of the family to be tested: says what the rates mean for it", HelpName = "FILE" };
    private static readonly Option<bool> PortsOption = new("--ports") { Description = "List serial ports with their stable paths" };
    private static readonly Option<string?> DiscoverOption = new("--discover") { Description = "Walk the addresses and speeds of a link (serial port, or host:port); only reads", HelpName = "LINK" };
    private static readonly Option<string?> AddressesOption = new("--addresses") { Description = "With --discover: addresses to walk, e.g. 1-20,33 (default: 1-247)", HelpName = "LIST" };
    private static readonly Option<string?> SpeedsOption = new("--speeds") { Description = "With --discover: speeds to walk, e.g. 9600,115200 (default: the usual ones)", HelpName = "LIST" };
    private static readonly Option<bool> ExerciseOption = new("--exercise") { Description = "ENERGISES: pulse each output of a position, after confirmation; needs --profile" };
    private static readonly Option<string?> PositionOption = new("--position") { Description = "With --exercise: the unit position, where the bench has several", HelpName = "NAME" };
    private static readonly Option<string?> UnitOption = new("--with-unit") { Description = "With --exercise: serial number of the unit that is connected (default: none is)", HelpName = "SN" };
    private static readonly Option<bool> YesOption = new("--yes") { Description = "With --exercise: confirm cautions and wiring; only for who has checked every line" };

    /// <summary>Gives the verb its options and action.</summary>
    public static void Fill(Command command)
    {
        Option[] all = [BenchOption, ProfileOption, PortsOption, DiscoverOption, AddressesOption, SpeedsOption, ExerciseOption, PositionOption, UnitOption, YesOption];
        foreach (Option option in all)
        {
            command.Add(option);
        }

        command.SetGuardedAction(RunAsync);
    }

    private static async Task<int> RunAsync(ParseResult options)
    {
        bool json = options.GetValue(CommonOptions.Json);
        string? place = options.GetValue(DiscoverOption);
        string? file = options.GetValue(BenchOption);
        bool exercise = options.GetValue(ExerciseOption);
        RefuseMixed(options, place is not null, exercise);
        if (options.GetValue(PortsOption))
        {
            return PortListing.Print(json);
        }

        using StopSignals stop = new();
        TimeProvider time = TimeProvider.System;
        if (place is not null)
        {
            return await LinkDiscovery.RunAsync(
                place, options.GetValue(AddressesOption), options.GetValue(SpeedsOption), new SystemLinkOpener(time), time, json, stop.Token);
        }

        BenchFile bench = UserFiles.Bench(file ?? throw new CliException(
            ExitCode.BadInput, "--bench FILE is missing; 'bench check --ports' and 'bench check --discover LINK' work without one"));
        Profile? profile = options.GetValue(ProfileOption) is { } p ? UserFiles.Profile(p) : null;
        try
        {
            await using OpenBench devices = await BenchDevices.OpenAsync(bench, new SystemLinkOpener(time), time, stop.Token);
            return exercise
                ? await Exercising.RunAsync(
                    bench, devices, profile!, options.GetValue(PositionOption), options.GetValue(UnitOption), options.GetValue(YesOption),
                    DataFolder.Resolve(options.GetValue(CommonOptions.Data)), time, json, stop.Token)
                : await LookAsync(bench, devices, profile, time, json, stop.Token);
        }
        catch (OperationCanceledException) when (stop.Token.IsCancellationRequested)
        {
            Terminal.Say("Stopped; nothing was energised.");
            return ExitCode.Interrupted;
        }
    }

    private static async Task<int> LookAsync(
        BenchFile bench, OpenBench devices, Profile? profile, TimeProvider time, bool json, CancellationToken cancel)
    {
        BenchCondition found = await BenchCheck.LookAsync(bench, devices, profile, time, cancel);
        IReadOnlyList<string> mend = Mending.Of(found);
        if (json)
        {
            Terminal.Json(CheckJson.Of(bench, found, mend));
        }
        else
        {
            CheckText.Print(found, profile, mend);
        }

        return found.CanRun ? ExitCode.Done : ExitCode.BenchFault;
    }

    // An option that would have no effect is a mistake, and near an output mistakes are not passed over.
    private static void RefuseMixed(ParseResult options, bool discover, bool exercise)
    {
        if ((discover || options.GetValue(PortsOption)) && (exercise || options.GetValue(BenchOption) is not null))
        {
            throw new CliException(ExitCode.BadInput, "--ports and --discover stand alone; they go with no bench file and exercise nothing");
        }

        if (!discover && (options.GetValue(AddressesOption) ?? options.GetValue(SpeedsOption)) is not null)
        {
            throw new CliException(ExitCode.BadInput, "--addresses and --speeds go with --discover LINK");
        }

        if (!exercise && (options.GetValue(YesOption) || (options.GetValue(PositionOption) ?? options.GetValue(UnitOption)) is not null))
        {
            throw new CliException(ExitCode.BadInput, "--position, --with-unit and --yes go with --exercise");
        }

        if (exercise && options.GetValue(ProfileOption) is null)
        {
            throw new CliException(ExitCode.BadInput, "--exercise needs --profile FILE: it holds the limits under which an output may be on");
        }
    }
}
