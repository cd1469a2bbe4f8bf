using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Alignment;

/// <summary>A picture brought down by a whole factor, each pixel the mean of a square.</summary>
/// <param name="Factor">Side of the square.</param>
/// <param name="Planes">The bands, as shares of full scale.</param>
internal sealed record ReducedImage(int Factor, Plane[] Planes)
{
    /// <summary>Reduces so that the longer side has at most <paramref name="longestSide"/> pixels; what is left over at the right and lower border is dropped.</summary>
    public static ReducedImage Of(InputImage image, int longestSide, RunContext context)
    {
        var facts = image.Image.Facts;
        var factor = (Math.Max(facts.Width, facts.Height) + longestSide - 1) / longestSide;
        var planes = Enumerable.Range(0, Bands.Count(facts)).Select(_ => new Plane(Math.Max(1, facts.Width / factor), Math.Max(1, facts.Height / factor))).ToArray();
        TiledRun.Map([image], factor * Math.Max(1, 1024 / factor), 0, (tile, windows) =>
        {
            var bands = Bands.Of(windows[0], facts);
            for (var b = 0; b < planes.Length; b++) Reduce(bands[b], planes[b], tile.Left / factor, tile.Top / factor, factor, facts.FullScale);
            return 0;
        }, context);
        return new ReducedImage(factor, planes);
    }

    /// <summary>The mean of the bands.</summary>
    public Plane Mean()
    {
        if (Planes.Length == 1) return Planes[0];
        var mean = new Plane(Planes[0].Width, Planes[0].Height);
        for (var i = 0; i < mean.Data.Length; i++)
        {
            double sum = 0;
            foreach (var band in Planes) sum += band.Data[i];
            mean.Data[i] = (float)(sum / Planes.Length);
        }
        return mean;
    }

    private static void Reduce(Plane from, Plane to, int left, int top, int factor, double fullScale)
    {
        var count = Math.Min(from.Width / factor, to.Width - left);
        var sums = new double[Math.Max(0, count)];
        for (var y = 0; y + factor <= from.Height && top + y / factor < to.Height; y += factor)
        {
            Array.Clear(sums);
            for (var j = y; j < y + factor; j++)
            {
                var row = from.Row(j);
                for (var x = 0; x < sums.Length; x++)
                    foreach (var v in row.Slice(x * factor, factor)) sums[x] += float.IsFinite(v) ? v : 0;
            }
            for (var x = 0; x < sums.Length; x++) to[left + x, top + y / factor] = (float)(sums[x] / (factor * factor) / fullScale);
        }
    }
}
