using Bench.Model.Runs;
using QRCoder;
using SkiaSharp;

namespace Bench.Reporting;

/// <summary>
/// What the code on traveller and label says: the run and its hash, so that paper and record can be matched. A QR code
/// (ISO/IEC 18004), error correction level M. All capitals, so that the dense alphanumeric mode holds it.
/// </summary>
public static class RunCode
{
    /// <summary>Edge of one module in millimetres: four dots of a label printer with 203 dpi, six of one with 300 dpi.</summary>
    public const float ModuleMm = 0.5f;

    /// <summary>The text: <c>BENCH-RUN</c>, the id of the run, <c>SHA-256</c>, its hash; parted by single spaces.</summary>
    public static string Text(SealedRun run) =>
        $"BENCH-RUN {run.Record.Start.Id.ToString("D").ToUpperInvariant()} SHA-256 {run.Hash.ToUpperInvariant()}";

    /// <summary>Draws the code with the free edge of four modules that it needs, from an upper left corner.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="run">The run.</param>
    /// <param name="x">Left, points.</param>
    /// <param name="y">Top, points.</param>
    /// <param name="module">Edge of a module, points.</param>
    internal static void Draw(SKCanvas canvas, SealedRun run, float x, float y, float module)
    {
        using QRCodeGenerator generator = new();
        using QRCodeData code = generator.CreateQrCode(Text(run), QRCodeGenerator.ECCLevel.M);

        // One path: between two filled squares a viewer would show a hair of white.
        using SKPath path = new();
        for (int row = 0; row < code.ModuleMatrix.Count; row++)
        {
            for (int column = 0; column < code.ModuleMatrix[row].Count; column++)
            {
                if (code.ModuleMatrix[row][column])
                {
                    path.AddRect(SKRect.Create(x + (column * module), y + (row * module), module, module));
                }
            }
        }

        using SKPaint paint = new() { Color = SKColors.Black, Style = SKPaintStyle.Fill };
        canvas.DrawPath(path, paint);
    }

    /// <summary>Modules along an edge, with the free edge.</summary>
    internal static int Modules(SealedRun run)
    {
        using QRCodeGenerator generator = new();
        using QRCodeData code = generator.CreateQrCode(Text(run), QRCodeGenerator.ECCLevel.M);
        return code.ModuleMatrix.Count;
    }
}
