using System.Globalization;
using Sandarac.Imaging.Display;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Storage;

/// <summary>Puts a finished pyramid file into the store and notes what a viewer must know of it.</summary>
internal static class NewPyramid
{
    public static (StoredObject Object, PyramidFacts Facts) Adopt(ObjectStore objects, string file, IReadOnlyList<string>? bands, string? unit)
    {
        PyramidFacts facts;
        using (var pyramid = PyramidFile.Open(file))
        {
            var window = ContrastWindow.Suggest(pyramid);
            facts = new PyramidFacts("", pyramid.Width, pyramid.Height, pyramid.Levels.Count, FormatOf(pyramid.Format), bands ?? BandNames(pyramid.Bands),
                unit ?? (pyramid.Format == TileFormat.Float32 ? "file's own unit" : "counts"), FullScale(pyramid.Format), window.Low, window.High);
        }
        var stored = objects.Adopt(file, null, "image/tiff", isDerived: true);
        return (stored, facts with { Sha256 = stored.Sha256 });
    }

    /// <summary>Names of a photograph's bands.</summary>
    private static IReadOnlyList<string> BandNames(int bands) => bands switch
    {
        1 => ["grey"],
        2 => ["grey", "alpha"],
        3 => ["R", "G", "B"],
        4 => ["R", "G", "B", "alpha"],
        _ => [.. Enumerable.Range(1, bands).Select(b => string.Create(CultureInfo.InvariantCulture, $"band {b}"))],
    };

    private static double FullScale(TileFormat format) => format switch { TileFormat.UInt8 => byte.MaxValue, TileFormat.UInt16 => ushort.MaxValue, _ => 1 };

    private static SampleFormat FormatOf(TileFormat format) => format switch
    {
        TileFormat.UInt8 => SampleFormat.UInt8,
        TileFormat.UInt16 => SampleFormat.UInt16,
        _ => SampleFormat.Float,
    };
}
