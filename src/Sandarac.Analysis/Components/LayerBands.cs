using System.Globalization;
using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Components;

/// <summary>The bands of several aligned images as one list: all colour bands of the first image, then of the second, and so on; alpha left out.</summary>
internal sealed class LayerBands
{
    private readonly IReadOnlyList<(int Image, int Band)> _places;

    private LayerBands(IReadOnlyList<InputImage> images, IReadOnlyList<(int Image, int Band)> places, IReadOnlyList<string> names) =>
        (Images, _places, Names) = (images, places, names);

    /// <summary>The images.</summary>
    public IReadOnlyList<InputImage> Images { get; }

    /// <summary>What a person calls each band: "UVL_01.tif green", "plate 3.tif (XR)".</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>The file value that counts as 1 in each band: the largest that the file can hold; 1 in files of floats.</summary>
    public IReadOnlyList<double> FullScales => [.. _places.Select(p => Images[p.Image].Image.Facts.FullScale)];

    /// <summary>All bands of the images.</summary>
    public static LayerBands Of(IReadOnlyList<InputImage> images)
    {
        (int Image, int Band)[] places = [.. images.SelectMany((image, i) => Enumerable.Range(0, Bands.Count(image.Image.Facts)).Select(b => (i, b)))];
        var sameName = images.Select(i => i.Name).Distinct().Count() < images.Count;
        return new LayerBands(images, places, [.. places.Select(p => (sameName ? FormattableString.Invariant($"{p.Image + 1}: ") : "") + Name(images[p.Image], p.Band))]);
    }

    /// <summary>Some of the bands, in the order given; one may come twice.</summary>
    public LayerBands Only(params int[] bands) => new(Images, [.. bands.Select(b => _places[b])], [.. bands.Select(b => Names[b])]);

    /// <summary>The position of the band with this number, counted from 1.</summary>
    /// <exception cref="InputProblem">There is no such band; the remedy lists those there are.</exception>
    public int Position(IntegerParameter parameter, int number) => number <= Names.Count ? number - 1
        : throw new InputProblem("no-such-band", parameter.Name, FormattableString.Invariant($"There is no band {number}: the images have {Names.Count}."),
            $"Give one of: {string.Join(", ", Names.Select((n, i) => string.Create(CultureInfo.InvariantCulture, $"{i + 1} {n}")))}.");

    /// <summary>The bands of a window, in the files' own values; NaN where alpha is 0.</summary>
    /// <param name="windows">By image and band, as read.</param>
    public Plane[] Take(Plane[][] windows)
    {
        var colours = windows.Select((window, i) => Bands.Of(window, Images[i].Image.Facts)).ToArray();
        return [.. _places.Select(p => colours[p.Image][p.Band])];
    }

    /// <summary>The light stands in brackets where the file's name does not tell it already.</summary>
    private static string Name(InputImage image, int band)
    {
        var light = image.Light is { } l && !image.Name.Contains(l.Code, StringComparison.OrdinalIgnoreCase) ? $" ({l.Code})" : "";
        return image.Name + light + (Bands.Count(image.Image.Facts) == 1 ? "" : " " + Bands.Name(image.Image.Facts, band));
    }
}
