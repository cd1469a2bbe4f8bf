using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;

namespace Sandarac.Analysis.Teaching;

/// <summary>An aligned image as teaching takes it: at full size, or a smaller copy of it.</summary>
/// <param name="Name">What a person calls it.</param>
/// <param name="Facts">The file's facts; the size may be another.</param>
/// <param name="Read">All bands of a window (left, top, width, height), in the file's own values; called by one thread at a time.</param>
public sealed record TaughtLayer(string Name, ImageFacts Facts, Func<int, int, int, int, Plane[]> Read);

/// <summary>Aligned layers on one grid.</summary>
/// <param name="width">Columns.</param>
/// <param name="height">Rows.</param>
/// <param name="mmPerPixel">Millimetres on the painting that a pixel covers.</param>
/// <param name="layers">The layers, at least one.</param>
public sealed class TaughtLayers(int width, int height, double mmPerPixel, IReadOnlyList<TaughtLayer> layers)
{
    private readonly Lock _reading = new();

    /// <summary>Columns.</summary>
    public int Width => width;

    /// <summary>Rows.</summary>
    public int Height => height;

    /// <summary>Millimetres on the painting that a pixel covers.</summary>
    public double MmPerPixel => mmPerPixel;

    /// <summary>What a person calls each band, layer by layer: "UVL_01.tif green".</summary>
    internal IReadOnlyList<BandName> Bands { get; } = Named(layers);

    /// <summary>Layers of a reading's images, at full size.</summary>
    internal static TaughtLayers Of(IReadOnlyList<InputImage> images, double mmPerPixel)
    {
        var facts = images[0].Image.Facts;
        return new TaughtLayers(facts.Width, facts.Height, mmPerPixel, [.. images.Select(i => new TaughtLayer(i.Name, i.Image.Facts, i.Image.ReadWindow))]);
    }

    /// <summary>The bands of a window as shares of full scale; NaN where alpha is 0.</summary>
    internal Plane[] Window(int left, int top, int columns, int rows)
    {
        Plane[][] read;
        lock (_reading) read = [.. layers.Select(l => l.Read(left, top, columns, rows))];
        return Shares(read);
    }

    /// <summary>The same of windows that were read already, by layer and band.</summary>
    internal Plane[] Shares(Plane[][] windows) => [.. windows.SelectMany((window, i) =>
    {
        var scale = (float)(1 / layers[i].Facts.FullScale);
        return Levels.Bands.Of(window, layers[i].Facts).Select(band => band.Select(v => v * scale));
    })];

    private static BandName[] Named(IReadOnlyList<TaughtLayer> layers)
    {
        var sameName = layers.Select(l => l.Name).Distinct().Count() < layers.Count;
        return [.. layers.SelectMany((layer, i) =>
        {
            var (name, count) = (sameName ? FormattableString.Invariant($"{i + 1}: {layer.Name}") : layer.Name, Levels.Bands.Count(layer.Facts));
            return Enumerable.Range(0, count).Select(b => new BandName(i, name, count == 1 ? name : $"{name} {Levels.Bands.Name(layer.Facts, b)}"));
        })];
    }
}

/// <summary>A band and the layer it is of.</summary>
/// <param name="Layer">The layer's position.</param>
/// <param name="LayerName">What a person calls the layer.</param>
/// <param name="Name">What a person calls the band.</param>
internal sealed record BandName(int Layer, string LayerName, string Name);
