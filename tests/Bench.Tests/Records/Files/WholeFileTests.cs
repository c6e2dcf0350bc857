using Bench.Records.Files;

namespace Bench.Tests.Records.Files;

public sealed class WholeFileTests : IDisposable
{
    private readonly DataFolder _folder = new();
    private readonly string _path;

    public WholeFileTests() => _path = Path.Combine(_folder.Path, "packet.html");

    [Fact]
    public void Write_Content_IsThereAndNothingElse()
    {
        WholeFile.Write(_path, stream => stream.Write("whole"u8));
        Assert.Equal("whole", File.ReadAllText(_path));
        Assert.Equal([_path], Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void Write_FailsHalfWay_LeavesWhatWasThere()
    {
        WholeFile.Write(_path, stream => stream.Write("before"u8));
        Assert.Throws<IOException>(() => WholeFile.Write(_path, stream =>
        {
            stream.Write("half"u8);
            throw new IOException("the disk is full");
        }));
        Assert.Equal("before", File.ReadAllText(_path));
        Assert.Equal([_path], Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void Write_AnotherIsWritingIt_IsRefusedAndSpoilsNothing() => WholeFile.Write(_path, stream =>
    {
        stream.Write("first"u8);
        Assert.Throws<IOException>(() => WholeFile.Write(_path, other => other.Write("second"u8)));
        Assert.True(File.Exists(_path + WholeFile.Unfinished));
    });

    [Fact]
    public void Write_ThereAlreadyAndNotToBeReplaced_IsRefused()
    {
        File.WriteAllText(_path, "before");
        Assert.Throws<IOException>(() => WholeFile.Write(_path, stream => stream.Write("after"u8), overwrite: false));
        Assert.Equal("before", File.ReadAllText(_path));
    }

    [Fact]
    public void Write_LeftoverOfADeadProgram_IsReplaced()
    {
        File.WriteAllText(_path + WholeFile.Unfinished, "a longer text that was cut short");
        WholeFile.Write(_path, stream => stream.Write("whole"u8));
        Assert.Equal("whole", File.ReadAllText(_path));
    }

    public void Dispose() => _folder.Dispose();
}
