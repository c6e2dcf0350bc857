using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Bench.SystemTests.Devices.Peers;

namespace Bench.SystemTests.Reporting;

/// <summary>The packet's PDF as poppler sees it: a reader that shares no code with what wrote it.</summary>
[Collection(DemoPackets.Collection)]
public sealed partial class PaperTests(DemoPackets packets)
{
    private const double PointsPerMillimetre = 72 / 25.4;

    [Theory]
    [MemberData(nameof(DemoPackets.Serials), MemberType = typeof(DemoPackets))]
    public async Task Pdf_ReadByPoppler_IsA4WithTitleAndOnlyEmbeddedFonts(string serial)
    {
        Peer.Need("pdfinfo");
        string pdf = await packets.PdfAsync(serial);

        Dictionary<string, string> told = (await SaidAsync("pdfinfo", pdf)).Split('\n').Select(l => l.Split(':', 2))
            .Where(l => l.Length == 2).DistinctBy(l => l[0]).ToDictionary(l => l[0], l => l[1].Trim());
        Assert.Contains($"{serial} – evidence packet (simulated)", told["Title"], StringComparison.Ordinal);
        Assert.InRange(int.Parse(told["Pages"], CultureInfo.InvariantCulture), 1, 12);
        double[] size = [.. Number().Matches(told["Page size"]).Take(2).Select(m => double.Parse(m.Value, CultureInfo.InvariantCulture))];
        Assert.Equal(210, size[0] / PointsPerMillimetre, 0.5);
        Assert.Equal(297, size[1] / PointsPerMillimetre, 0.5);

        string[] fonts = (await SaidAsync("pdffonts", pdf)).Split('\n', StringSplitOptions.RemoveEmptyEntries)[2..];
        Assert.NotEmpty(fonts);

        // Columns from the right: object's two numbers, has a map to Unicode, is a subset, is embedded.
        Assert.All(fonts, font => Assert.Equal("yes", font.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^5]));
        Assert.All(fonts, font => Assert.Equal("yes", font.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^3]));
    }

    // What a reader must find in ten seconds stands on the first page.
    [Theory]
    [MemberData(nameof(DemoPackets.Serials), MemberType = typeof(DemoPackets))]
    public async Task Pdf_FirstPage_SaysVerdictClaimStrongestReasonsAndNextStep(string serial)
    {
        Peer.Need("pdftotext");
        string page = Joined(await SaidAsync("pdftotext", "-l", "1", await packets.PdfAsync(serial), "-"));
        JsonElement run = await packets.RecordAsync(serial);
        string? Word(string name) => run.GetProperty(name).GetString();

        Assert.Contains(serial, page, StringComparison.Ordinal);
        Assert.Contains((Word("disposition") ?? Word("outcome"))!.ToUpperInvariant(), page, StringComparison.Ordinal);
        if (Word("claim") is { } claim)
        {
            Assert.Contains(claim, page, StringComparison.Ordinal);
            Assert.All(run.GetProperty("reasons").EnumerateArray().Take(3), reason => Assert.Contains(Joined(reason.GetString()!), page, StringComparison.Ordinal));
            Assert.Contains(Joined(Word("next_step")!), page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Pdf_FirstPage_CanBeDrawnAndIsNotBlank()
    {
        Peer.Need("pdftoppm");
        string picture = packets.Folder.At("first");
        await SaidAsync("pdftoppm", "-r", "50", "-gray", "-l", "1", "-singlefile", await packets.PdfAsync("ND4-10388"), picture);

        byte[] bytes = await File.ReadAllBytesAsync(picture + ".pgm", TestContext.Current.CancellationToken);
        int dark = bytes.Count(b => b < 128);
        Assert.InRange((double)dark / bytes.Length, 0.01, 0.3);
    }

    private static async Task<string> SaidAsync(string program, params string[] arguments)
    {
        (int code, string printed) = await Peer.RunAsync(program, arguments);
        Assert.True(code == 0, printed);
        return printed;
    }

    // Lines are broken where a column ends: held against each other without any white space.
    private static string Joined(string text) => WhiteSpace().Replace(text, "");

    [GeneratedRegex(@"\s+")]
    private static partial Regex WhiteSpace();

    [GeneratedRegex(@"[\d.]+")]
    private static partial Regex Number();
}
