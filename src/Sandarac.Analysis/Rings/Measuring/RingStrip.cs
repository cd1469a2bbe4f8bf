using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Rings.Measuring;

/// <summary>The picture along a line: columns a pixel apart along it, rows across it; the mean of the bands as a share of full scale.</summary>
/// <param name="Values">The picture; what has no data is the mean of the rest.</param>
/// <param name="RowStep">Distance of the rows, pixels.</param>
internal sealed record RingStrip(Plane Values, double RowStep)
{
    private const int LeastRows = 12, MostRows = 240, ColumnsAtOnce = 256;

    /// <summary>How far a row lies to the right of the line.</summary>
    public double Across(int row) => (row - (Values.Height - 1) / 2.0) * RowStep;

    /// <summary>Reads the strip with bilinear interpolation, part by part; beyond the photograph there is no data.</summary>
    public static RingStrip Read(InputImage image, RingLine line, double band, RunContext context)
    {
        var rows = Math.Clamp((int)Math.Round(band), LeastRows, MostRows);
        var strip = new RingStrip(new Plane(Math.Max(1, (int)line.Length), rows), band / rows);
        for (var from = 0; from < strip.Values.Width; from += ColumnsAtOnce)
        {
            strip.ReadPart(image, line, from, Math.Min(from + ColumnsAtOnce, strip.Values.Width));
            context.Report(0.5 * from / strip.Values.Width);
        }
        var mean = (float)strip.Values.Data.Where(float.IsFinite).Select(v => (double)v).DefaultIfEmpty(0).Average();
        return strip with { Values = strip.Values.Select(v => float.IsFinite(v) ? v : mean) };
    }

    /// <summary>The strip with each column drawn along its slope, so that boundaries of that slope stand upright.</summary>
    /// <param name="slopes">For each column, columns a pixel across.</param>
    public RingStrip Straightened(IReadOnlyList<double> slopes)
    {
        var straight = new Plane(Values.Width, Values.Height);
        for (var row = 0; row < straight.Height; row++)
        {
            var to = straight.Row(row);
            for (var i = 0; i < to.Length; i++) to[i] = Between(Values.Row(row), i + slopes[i] * Across(row));
        }
        return this with { Values = straight };
    }

    private static float Between(ReadOnlySpan<float> values, double at)
    {
        at = Math.Clamp(at, 0, values.Length - 1);
        var i = Math.Min((int)at, Math.Max(0, values.Length - 2));
        return i + 1 < values.Length ? (float)(values[i] + (at - i) * (values[i + 1] - values[i])) : values[i];
    }

    private void ReadPart(InputImage image, RingLine line, int from, int to)
    {
        var (facts, half) = (image.Image.Facts, Across(Values.Height - 1));
        var corners = new[] { line.At(from, -half), line.At(from, half), line.At(to, -half), line.At(to, half) };
        var (left, top) = ((int)Math.Clamp(corners.Min(c => c.X) - 2, 0, facts.Width - 1), (int)Math.Clamp(corners.Min(c => c.Y) - 2, 0, facts.Height - 1));
        var (right, bottom) = ((int)Math.Clamp(corners.Max(c => c.X) + 2, left + 1, facts.Width), (int)Math.Clamp(corners.Max(c => c.Y) + 2, top + 1, facts.Height));
        var bands = Bands.Of(image.Image.ReadWindow(left, top, right - left, bottom - top), facts);
        var grey = new Plane(right - left, bottom - top, [.. bands[0].Data.Select((_, i) => (float)(bands.Average(b => (double)b.Data[i]) / facts.FullScale))]);
        for (var row = 0; row < Values.Height; row++)
            for (var column = from; column < to; column++)
            {
                var p = line.At(column + 0.5, Across(row));
                Values[column, row] = Sample(grey, p.X - left - 0.5, p.Y - top - 0.5);
            }
    }

    private static float Sample(Plane picture, double x, double y)
    {
        if (!(x >= -0.5 && y >= -0.5 && x <= picture.Width - 0.5 && y <= picture.Height - 0.5)) return float.NaN;
        var (i, j) = (Math.Clamp((int)x, 0, Math.Max(0, picture.Width - 2)), Math.Clamp((int)y, 0, Math.Max(0, picture.Height - 2)));
        var (k, l) = (Math.Min(i + 1, picture.Width - 1), Math.Min(j + 1, picture.Height - 1));
        var (s, t) = ((float)Math.Clamp(x - i, 0, 1), (float)Math.Clamp(y - j, 0, 1));
        var upper = picture[i, j] + s * (picture[k, j] - picture[i, j]);
        return upper + t * (picture[i, l] + s * (picture[k, l] - picture[i, l]) - upper);
    }
}
