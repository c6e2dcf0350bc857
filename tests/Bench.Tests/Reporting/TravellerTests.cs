using Bench.Model.Entries;
using Bench.Model.Runs;
using Bench.Model.Safety;
using Bench.Reporting;
using Bench.Reporting.Text;
using SkiaSharp;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using ZXing;

namespace Bench.Tests.Reporting;

/// <summary>Traveller and label: read back by PdfPig, their code read by ZXing.</summary>
public sealed class TravellerTests
{
    // Common label printers: 8 and 12 dots a millimetre.
    public static TheoryData<string, int> PapersAndPrinters => new()
    {
        { "a4", 203 }, { "a4", 300 }, { "a6", 203 }, { "a6", 300 }, { "label", 203 }, { "label", 300 },
    };

    [Theory]
    [MemberData(nameof(PapersAndPrinters))]
    public void Code_PrintedAtThePrintersDots_ReadsAsRunAndHash(string paper, int dotsPerInch)
    {
        SampleRun run = SampleRun.DeadSensors();

        Assert.Equal(RunCode.Text(run.Run), Decode(paper, run, dotsPerInch));
    }

    [Fact]
    public void Text_OfARun_IsTheDocumentedForm()
    {
        SampleRun run = SampleRun.Healthy();

        string[] words = RunCode.Text(run.Run).Split(' ');

        Assert.Equal(["BENCH-RUN", "SHA-256"], [words[0], words[2]]);
        Assert.Equal(run.Run.Record.Start.Id, Guid.Parse(words[1]));
        Assert.Equal(run.Run.Hash, words[3].ToLowerInvariant());
    }

    [Theory]
    [InlineData("healthy")]
    [InlineData("dead-sensors")]
    [InlineData("held")]
    [InlineData("aborted")]
    public void Traveller_AnyOutcome_IsOnePageWithVerdictNextStepWorkAndAllCautions(string outcome)
    {
        SampleRun run = EvidencePacketTests.Sample(outcome);
        using PdfDocument pdf = Read(output => Traveller.Write(run.Run, output));

        string[] told =
        [
            Mark.Of(run.Run.Record).Word.ToUpperInvariant(),
            run.Run.Record.Start.Return.Serial,
            run.Run.Record.Judgement?.NextStep ?? run.Run.Record.AbortText!,
            .. Cautions.All,
            .. run.Run.Record.Judgement?.Work.Select(w => w.Work) ?? [],
        ];
        HashSet<string> words = [.. Words(Assert.Single(pdf.GetPages()))];
        Assert.All(told.SelectMany(t => t.Split(' ')), word => Assert.Contains(word, words));
    }

    [Fact]
    public void Traveller_MuchText_StaysOnOnePage()
    {
        SampleRun run = EvidencePacketTests.Hostile(string.Concat(Enumerable.Repeat("many words that go on and on ", 60)));
        using PdfDocument pdf = Read(output => Traveller.WriteShort(run.Run, output));

        Page page = Assert.Single(pdf.GetPages());
        Assert.All(page.Letters, letter => Assert.InRange(letter.StartBaseLine.Y, 0, page.Height));
    }

    [Theory]
    [InlineData("ND4-1")]
    [InlineData("A-serial-number-that-is-longer-than-any-label-is-wide-and-ends-in-1234")]
    public void Label_AnySerial_KeepsEveryLetterOnTheLabel(string serial)
    {
        SampleRun run = SampleRun.DeadSensors().With(s => s with { Return = s.Return with { Serial = serial } });
        using PdfDocument pdf = Read(output => UnitLabel.Write(run.Run, output));

        Page page = Assert.Single(pdf.GetPages());
        Assert.Equal(62, page.Width * 25.4 / 72, 0.5);
        Assert.All(page.Letters, letter => Assert.InRange(letter.EndBaseLine.X, 0, page.Width));
        Assert.All(page.Letters, letter => Assert.InRange(letter.StartBaseLine.Y, 0, page.Height));
        Assert.Contains("REPAIRABLE", Words(page));
        Assert.Contains(serial[^4..], page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void TravellerAndLabel_SerialSetRight_ShowItAndWhatWasSealed()
    {
        SampleRun run = SampleRun.DeadSensors();
        Correction correction = new()
        {
            Run = run.Run.Record.Start.Id,
            MadeAt = run.Run.Record.EndedAt,
            Fact = CorrectedFact.Serial,
            Was = run.Run.Return.Serial,
            To = "ND4-5",
            Because = "label misread",
            By = "R. Alder",
        };
        SealedRun corrected = run.Run with { Entries = [new SealedEntry(1, new string('d', 64), correction)] };
        foreach (Action<SealedRun, Stream> write in (Action<SealedRun, Stream>[])[Traveller.Write, Traveller.WriteShort, UnitLabel.Write])
        {
            using PdfDocument pdf = Read(output => write(corrected, output));
            string[] words = [.. Words(Assert.Single(pdf.GetPages()))];
            Assert.Contains("ND4-5", words);
            Assert.Contains(words, w => w.StartsWith(run.Run.Record.Start.Return.Serial, StringComparison.Ordinal));
        }
    }

    private static string? Decode(string paper, SampleRun run, int dotsPerInch)
    {
        using SKPicture page = paper switch
        {
            "a4" => Traveller.Page(run.Run),
            "a6" => Traveller.ShortPage(run.Run),
            _ => UnitLabel.Page(run.Run),
        };
        float scale = dotsPerInch / 72f;
        using SKBitmap bitmap = new((int)(page.CullRect.Width * scale), (int)(page.CullRect.Height * scale), SKColorType.Bgra8888, SKAlphaType.Opaque);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(SKColors.White);
        canvas.Scale(scale);
        canvas.DrawPicture(page);
        BarcodeReaderGeneric reader = new() { Options = new() { PossibleFormats = [BarcodeFormat.QR_CODE], TryHarder = true } };
        return reader.Decode(new RGBLuminanceSource(bitmap.Bytes, bitmap.Width, bitmap.Height, RGBLuminanceSource.BitmapFormat.BGRA32))?.Text;
    }

    private static PdfDocument Read(Action<Stream> write)
    {
        using MemoryStream output = new();
        write(output);
        return PdfDocument.Open(output.ToArray());
    }

    private static IEnumerable<string> Words(Page page) => page.GetWords().Select(w => w.Text);
}
