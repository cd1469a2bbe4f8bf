using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>Probabilities of a whole image brought down to a size at which areas are looked for: what the pixel in the middle of each square has.</summary>
internal sealed class ProbabilityMap
{
    private const int LongestSide = 1600;

    private readonly int _factor;

    public ProbabilityMap(TaughtLayers layers, int classes)
    {
        _factor = (Math.Max(layers.Width, layers.Height) + LongestSide - 1) / LongestSide;
        MmPerPixel = _factor * layers.MmPerPixel;
        Planes = [.. Enumerable.Range(0, classes).Select(_ => new Plane((layers.Width + _factor - 1) / _factor, (layers.Height + _factor - 1) / _factor))];
        foreach (var plane in Planes) Array.Fill(plane.Data, float.NaN);
    }

    /// <summary>A probability for each class.</summary>
    public Plane[] Planes { get; }

    /// <summary>Pixels of the image along a pixel.</summary>
    public int Factor => _factor;

    /// <summary>Side of a pixel, mm.</summary>
    public double MmPerPixel { get; }

    /// <summary>Pixels with data.</summary>
    public int Judged => Planes[0].Data.Count(float.IsFinite);

    /// <summary>Takes what lies in a tile; each thread writes places of its own.</summary>
    public void Take(Plane[] tile, int left, int top)
    {
        var middle = _factor / 2;
        for (var k = 0; k < Planes.Length; k++)
            for (var y = (middle - top % _factor + _factor) % _factor; y < tile[k].Height; y += _factor)
                for (var x = (middle - left % _factor + _factor) % _factor; x < tile[k].Width; x += _factor)
                    Planes[k][(left + x) / _factor, (top + y) / _factor] = tile[k][x, y];
    }

    /// <summary>Share of the judged pixels in which a class is the likeliest.</summary>
    public double LikeliestShare(int k) => Judged == 0 ? 0
        : Enumerable.Range(0, Planes[k].Data.Length).Count(i => float.IsFinite(Planes[k].Data[i]) && Array.TrueForAll(Planes, p => p == Planes[k] || p.Data[i] < Planes[k].Data[i])) / (double)Judged;
}
