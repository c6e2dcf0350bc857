using System.Security.Cryptography;
using System.Text.Json;
using Bench.SystemTests.Browsers;
using Bench.SystemTests.Programs;

namespace Bench.SystemTests.Reporting;

/// <summary>Packets in a real browser, held against WCAG 2.2: by axe-core, and by rules of our own for what it leaves to people.</summary>
[Collection(DemoPackets.Collection)]
public sealed class AccessibilityTests(DemoPackets packets, Browser browser) : IClassFixture<Browser>
{
    /// <summary>axe-core 4.14.1 (MPL-2.0), used by this test alone and no part of what ships; test.sh fetches it from npm.</summary>
    private const string AxeSha256 = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c";

    private static readonly string Axe = RepositoryFolder.At(".artifacts", "peers", "node_modules", "axe-core", "axe.min.js");

    /// <summary>Every packet, wide and narrow, light and dark.</summary>
    public static TheoryData<string, int, bool> Views
    {
        get
        {
            TheoryData<string, int, bool> views = [];
            foreach (TheoryDataRow<string> serial in DemoPackets.Serials)
            {
                views.Add(serial.Data, 1100, false);
                views.Add(serial.Data, 1100, true);
                views.Add(serial.Data, 360, false);
                views.Add(serial.Data, 360, true);
            }

            return views;
        }
    }

    [Theory]
    [MemberData(nameof(Views))]
    public async Task Packet_HeldAgainstAxe_HasNoViolation(string serial, int width, bool dark)
    {
        Assert.SkipUnless(File.Exists(Axe), "axe-core is not installed on this machine; test.sh installs it where npm is");
        string script = await File.ReadAllTextAsync(Axe, TestContext.Current.CancellationToken);
        Assert.Equal(AxeSha256, Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Axe))));
        await using BrowserPage page = await browser.OpenAsync(packets[serial], width, dark);
        await page.EvaluateAsync(script + ";0");

        JsonElement result = await page.EvaluateAsync(
            """
            axe.run(document).then(r => ({
                passed: r.passes.length,
                violated: r.violations.map(v => v.id + ': ' + v.help + ', e.g. ' + v.nodes[0].html.slice(0, 200) + ' ' + v.nodes[0].failureSummary),
            }))
            """);

        Assert.Empty(Words(result, "violated"));
        Assert.True(result.GetProperty("passed").GetInt32() > 20, "axe looked at hardly anything");
    }

    // axe leaves the contrast of text in a picture to people.
    [Theory]
    [MemberData(nameof(Views))]
    public async Task Packet_TextInPlots_HasTheContrastOfCriterion143(string serial, int width, bool dark)
    {
        await using BrowserPage page = await browser.OpenAsync(packets[serial], width, dark);

        Assert.Equal(dark, (await page.EvaluateAsync("matchMedia('(prefers-color-scheme: dark)').matches")).GetBoolean());
        Assert.Empty(Words(await page.EvaluateAsync(
            """
            (() => {
                const channel = v => v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4;
                const numbers = text => text.match(/[\d.]+/g).map(Number);
                const luminance = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
                const behind = element => {
                    for (let e = element; e; e = e.parentElement) {
                        const color = numbers(getComputedStyle(e).backgroundColor);
                        if (color.length < 4 || color[3] > 0) return color;
                    }
                    return [255, 255, 255];
                };
                return [...document.querySelectorAll('figure svg text')].map(t => {
                    const [a, b] = [luminance(numbers(getComputedStyle(t).fill)), luminance(behind(t.closest('figure')))];
                    return { text: t.textContent, ratio: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05) };
                }).filter(t => t.ratio < 4.5).map(t => t.text + ' ' + t.ratio.toFixed(2));
            })()
            """)));
    }

    [Theory]
    [MemberData(nameof(DemoPackets.Serials), MemberType = typeof(DemoPackets))]
    public async Task Packet_At320Pixels_NeedsNoScrollingSidewaysAfterCriterion1410(string serial)
    {
        await using BrowserPage page = await browser.OpenAsync(packets[serial], 320);

        Assert.Empty(Words(await page.EvaluateAsync(
            """
            [document.documentElement, ...document.querySelectorAll('body *')]
                .filter(e => !e.closest('thead, .unseen')) // for screen readers alone, one pixel wide
                .filter(e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1 && getComputedStyle(e).display !== 'inline' && !(e instanceof SVGElement))
                .map(e => e.tagName + '.' + e.className + ' ' + e.scrollWidth + ' in ' + e.clientWidth)
            """)));
    }

    [Theory]
    [InlineData(360)]
    [InlineData(1100)]
    public async Task Packet_PlotsAtAnyWidth_AreLegibleWholeAndNoWordsCoverEachOther(int width)
    {
        foreach (TheoryDataRow<string> serial in DemoPackets.Serials)
        {
            await using BrowserPage page = await browser.OpenAsync(packets[serial.Data], width);

            Assert.Empty(Words(await page.EvaluateAsync(
                """
                [...document.querySelectorAll('figure')].flatMap(figure => {
                    const svg = figure.querySelector('svg'), frame = svg.getBoundingClientRect(), scale = frame.width / svg.viewBox.baseVal.width;
                    const texts = [...svg.querySelectorAll('text')].map(t => ({ text: t.textContent, size: parseFloat(t.getAttribute('font-size')) * scale, box: t.getBoundingClientRect() }));
                    const common = (a, b) => [Math.min(a.right, b.right) - Math.max(a.left, b.left), Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)];
                    return [
                        ...texts.filter(t => t.size < 9).map(t => figure.id + ': ' + t.text + ' is ' + t.size.toFixed(1) + ' px high'),
                        ...texts.filter(t => t.box.left < frame.left - 1 || t.box.right > frame.right + 1 || t.box.top < frame.top - 1 || t.box.bottom > frame.bottom + 1)
                            .map(t => figure.id + ': ' + t.text + ' is cut off'),
                        ...texts.flatMap((a, i) => texts.slice(0, i).filter(b => { const [w, h] = common(a.box, b.box); return w > 2 && h > 5; })
                            .map(b => figure.id + ': ' + a.text + ' covers ' + b.text)),
                    ];
                })
                """)));
        }
    }

    [Theory]
    [MemberData(nameof(DemoPackets.Serials), MemberType = typeof(DemoPackets))]
    public async Task Packet_InTheAccessibilityTree_GivesEachPlotANameAndItsNumbers(string serial)
    {
        await using BrowserPage page = await browser.OpenAsync(packets[serial], 1100);

        JsonElement tree = await page.AccessibilityTreeAsync();
        JsonElement[] images = [.. tree.EnumerateArray().Where(n => Told(n, "role") is "image" or "img")];
        int plots = (await page.EvaluateAsync("document.querySelectorAll('figure').length")).GetInt32();
        Assert.Equal(plots, images.Length);
        Assert.All(images, image =>
        {
            Assert.NotEmpty(Told(image, "name"));
            Assert.Contains(Told(image, "description"), char.IsAsciiDigit);
        });
    }

    private static string Told(JsonElement node, string property) =>
        node.TryGetProperty(property, out JsonElement told) && told.TryGetProperty("value", out JsonElement value) ? value.GetString() ?? "" : "";

    private static string[] Words(JsonElement result, string? property = null) =>
        [.. (property is null ? result : result.GetProperty(property)).EnumerateArray().Select(e => e.GetString()!)];
}
