using System.Globalization;
using Bench.Campaigns.Archive;
using Bench.Campaigns.Checks;
using Bench.Campaigns.Confusion;
using Bench.Campaigns.Crash;
using Bench.Campaigns.Sustained;
using Bench.Campaigns.Wire;

// wire SEED RUNS [--replay]: runs under drawn faults, with an oracle at the plant.
// checks [--live SEED]: numbers against published ones; live, also against R and SciPy on drawn data.
// confusion [--mismatch] SEED UNITS: how often the bench is right about simulated units of every condition; with a
// model that differs from what the judge takes for granted.
// crash KILLS SEED [--kills-only]: kills and breaks what writes a data folder, and looks for what is lost.
// record SECONDS: the journal at 10,000 samples/s.
// crash-*: processes that crash starts and kills.
// archive fill DIR RUNS: makes a data folder with a few runs an archive of so many; archive measure DIR: times it.
switch (args)
{
    case ["wire", var seedText, var runsText, .. var rest] when rest is [] or ["--replay"]
        && ulong.TryParse(seedText, CultureInfo.InvariantCulture, out ulong seed)
        && int.TryParse(runsText, CultureInfo.InvariantCulture, out int runs) && runs >= 1:
        return WireCommand.Run(seed, runs, rest.Length > 0);
    case ["checks"]:
        return ChecksCommand.Run(null);
    case ["checks", "--live", var drawn] when int.TryParse(drawn, CultureInfo.InvariantCulture, out int from):
        return ChecksCommand.Run(from);
    case ["confusion", .. var how, var firstText, var unitsText] when how is [] or ["--mismatch"]
        && ulong.TryParse(firstText, CultureInfo.InvariantCulture, out ulong first)
        && int.TryParse(unitsText, CultureInfo.InvariantCulture, out int units) && units >= 1:
        return ConfusionCommand.Run(first, units, how.Length > 0);
    case ["crash", var killsText, var seedText, .. var only] when only is [] or ["--kills-only"]
        && int.TryParse(killsText, CultureInfo.InvariantCulture, out int kills) && kills >= 0
        && int.TryParse(seedText, CultureInfo.InvariantCulture, out int drawnFrom):
        return CrashCommand.Run(kills, drawnFrom, faultsToo: only.Length == 0);
    case ["crash-write", var folder, var fromText, var runsText, var atOnce, var aheadS]:
        return Writer.Write(
            folder, int.Parse(fromText, CultureInfo.InvariantCulture), int.Parse(runsText, CultureInfo.InvariantCulture),
            int.Parse(atOnce, CultureInfo.InvariantCulture), double.Parse(aheadS, CultureInfo.InvariantCulture));
    case ["crash-recover", var folder, var times]:
        return Writer.Recover(folder, int.Parse(times, CultureInfo.InvariantCulture));
    case ["crash-migrate", var folder]:
        return MigrationKills.Migrate(folder);
    case ["record", var secondsText] when int.TryParse(secondsText, CultureInfo.InvariantCulture, out int seconds) && seconds >= 1:
        return RecordCommand.Run(seconds);
    case ["archive", "fill", var folder, var countText]
        when Directory.Exists(folder) && int.TryParse(countText, CultureInfo.InvariantCulture, out int count) && count >= 1:
        return ArchiveCommand.Fill(folder, count);
    case ["archive", "measure", var folder] when Directory.Exists(folder):
        return ArchiveCommand.Measure(folder);
    default:
        Console.Error.WriteLine("""
            usage: wire SEED RUNS [--replay]   SEED: 0 or more, RUNS: 1 or more; run n has seed SEED + n - 1, --replay tells each run's story
                   checks [--live SEED]        --live: also against R and SciPy, on data drawn from SEED
                   confusion [--mismatch] SEED UNITS
                                               UNITS: 1 or more; unit n has seed SEED + n - 1; --mismatch: units and benches
                                               that differ from what the judge takes for granted
                   crash KILLS SEED [--kills-only]
                                               KILLS: 0 or more; without --kills-only the other faults, too
                   record SECONDS              SECONDS: 1 or more
                   archive fill DIR RUNS       DIR: a data folder with some sealed runs, which become RUNS
                   archive measure DIR         lists, searches and openings
            """);
        return 2;
}
