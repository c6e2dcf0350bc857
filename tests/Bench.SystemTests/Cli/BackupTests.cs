using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Cli;

public class BackupTests(StoredRuns stored) : IClassFixture<StoredRuns>
{
    [Fact]
    public async Task BackupRestoreAndRetain_Store_ComesBackWhole()
    {
        string file = stored.Folder.At("backup.zip");
        string to = stored.Folder.At("restored");
        (await stored.RunAsync("backup", file)).Said(0);
        (await stored.RunAsync("backup", file)).OnlySaid(2, "there already");
        (await stored.RunAsync("restore", file)).OnlySaid(2, "not empty");
        (await BenchProgram.RunAsync("restore", file, "--data", to)).Said(0);

        (await BenchProgram.RunAsync("verify", "--data", to)).Said(0);
        (await BenchProgram.RunAsync("show", stored.Id, "--data", to)).Said(0);
        (await BenchProgram.RunAsync("retain", "--older-than", "1", "--because", "Kept for a day.", "--by", "R. Halloway", "--data", to)).Said(0);
        (await BenchProgram.RunAsync("retain", "--older-than", "0", "--because", "No.", "--by", "R. Halloway", "--data", to)).OnlySaid(2, "--older-than 0: give 1 to");
    }
}
