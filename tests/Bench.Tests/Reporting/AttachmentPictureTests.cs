using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Bench.Model.Returns;
using Bench.Reporting;
using SkiaSharp;
using UglyToad.PdfPig;

namespace Bench.Tests.Reporting;

/// <summary>Photos of a return in the packet.</summary>
public sealed class AttachmentPictureTests
{
    [Fact]
    public void Write_SmallPicture_HoldsItAsItIs()
    {
        byte[] png = Picture(64, 48, SKEncodedImageFormat.Png);
        IElement photo = Page("image/png", png)!;
        Assert.Equal($"data:image/png;base64,{Convert.ToBase64String(png)}", photo.QuerySelector("img")!.GetAttribute("src"));
        Assert.Contains("SHA-256 " + new string('e', 64), photo.QuerySelector("figcaption")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_LargePicture_HoldsASmallerOneAndSaysSo()
    {
        byte[] png = Picture(2000, 1500, SKEncodedImageFormat.Png);
        Assert.True(png.Length > 400_000);
        IElement photo = Page("image/png", png)!;
        string source = photo.QuerySelector("img")!.GetAttribute("src")!;
        using SKBitmap shown = SKBitmap.Decode(Convert.FromBase64String(source["data:image/jpeg;base64,".Length..]));
        Assert.Equal((1280, 960), (shown.Width, shown.Height));
        Assert.Contains("shown smaller than it is kept", photo.TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("image/png")]
    public void Write_WhatIsNoPicture_IsListedOnly(string mediaType) => Assert.Null(Page(mediaType, "no picture"u8.ToArray()));

    [Fact]
    public void Write_PictureThatIsGone_IsListedOnly() => Assert.Null(Page("image/png", null));

    [Fact]
    public void Pdf_Picture_IsThere()
    {
        using MemoryStream output = new();
        (SampleRun run, byte[] png) = (With("image/png"), Picture(64, 48, SKEncodedImageFormat.Png));
        EvidencePdf.Write(run.Run, run.Trace, output, attached: _ => png);
        using PdfDocument pdf = PdfDocument.Open(output.ToArray());
        Assert.Contains(pdf.GetPages().SelectMany(p => p.GetImages()), i => (i.WidthInSamples, i.HeightInSamples) == (64, 48));
    }

    private static IElement? Page(string mediaType, byte[]? content)
    {
        SampleRun run = With(mediaType);
        using StringWriter writer = new();
        EvidencePacket.Write(run.Run, run.Trace, writer, attached: _ => content);
        IDocument page = new HtmlParser().ParseDocument(writer.ToString());
        Assert.Contains(page.QuerySelectorAll("[aria-labelledby=inspection] tbody th"), th => th.TextContent == "drive-side.png");
        return page.QuerySelector("figure.photo");
    }

    private static SampleRun With(string mediaType) => SampleRun.Healthy().With(s => s with
    {
        Return = s.Return with { Attachments = [new Attachment(new string('e', 64), "drive-side.png", mediaType, 1000)] },
    });

    // Noise, which packs badly.
    private static byte[] Picture(int width, int height, SKEncodedImageFormat format)
    {
        using SKBitmap bitmap = new(width, height);
        Random random = new(5);
        SKColor[] pixels = new SKColor[width * height];
        for (int i = 0; i < pixels.Length; i++)
        {
            pixels[i] = new SKColor((uint)random.Next() | 0xFF000000);
        }

        bitmap.Pixels = pixels;
        using SKData data = bitmap.Encode(format, 90);
        return data.ToArray();
    }
}
