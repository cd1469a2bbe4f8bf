using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Tests.Support;

/// <summary>A folder that goes away with the test.</summary>
internal sealed class TempFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("sandarac-test-").FullName;

    public string this[string name] => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}

/// <summary>A run that keeps its rasters in memory.</summary>
internal sealed class TestRun(Declaration declaration, Arguments arguments, IReadOnlyDictionary<string, IReadOnlyList<InputImage>> inputs, CancellationToken cancellation = default)
    : RunContext(declaration, arguments, inputs, null, cancellation)
{
    public Dictionary<string, Plane[]> Rasters { get; } = [];

    /// <summary>Runs a reading with images by slot; closes them.</summary>
    public static (Outcome Outcome, Dictionary<string, Plane[]> Rasters) Of(Reading reading, IReadOnlyList<(string Slot, InputImage Image)> images,
        Dictionary<string, string>? parameters = null, Tiling? tiling = null)
    {
        var slots = images.GroupBy(i => i.Slot).ToDictionary(g => g.Key, g => (IReadOnlyList<InputImage>)[.. g.Select(i => i.Image)]);
        try
        {
            var run = new TestRun(reading.Declaration, Arguments.Resolve(reading.Declaration, parameters ?? []), slots) { Tiling = tiling ?? Tiling.Default };
            return (reading.Run(run), run.Rasters);
        }
        finally
        {
            foreach (var (_, image) in images) image.Image.Dispose();
        }
    }

    public static InputImage Open(string path, Light? light = null, double? mmPerPixel = null) =>
        new(Path.GetFileName(path), ImageFile.Open(path), light, mmPerPixel is { } mm ? new PixelScale(mm, ScaleOrigin.Measured) : null, new string('0', 64));

    protected override IRasterWriter CreateRaster(RasterOutput output, int width, int height, PixelScale? scale)
    {
        Rasters[output.Name] = [.. output.Bands.Select(_ => new Plane(width, height))];
        return new Memory(Rasters[output.Name]);
    }

    private sealed class Memory(Plane[] bands) : IRasterWriter
    {
        public void WriteWindow(int left, int top, IReadOnlyList<Plane> window)
        {
            for (var b = 0; b < bands.Length; b++)
                for (var y = 0; y < window[b].Height; y++) window[b].Row(y).CopyTo(bands[b].Row(top + y)[left..]);
        }
    }
}
