using Sandarac.Specimen.Layers;
using Sandarac.Specimen.Output;

namespace Sandarac.Specimen.Truth;

/// <summary>One layer's thickness and coverage, averaged over square cells of about 0.4 mm so that two dozen layers stay small on
/// disk.</summary>
internal sealed class LayerMap
{
    private readonly int _step, _width, _height;
    private readonly ushort[] _um;
    private readonly byte[] _cover;
    private readonly double _ppi;

    public LayerMap(Canvas canvas, ParallelOptions options)
    {
        var grid = canvas.Grid;
        _step = StepFor(grid);
        (_width, _height) = ((grid.Width + _step - 1) / _step, (grid.Height + _step - 1) / _step);
        (_um, _cover) = (new ushort[_width * _height], new byte[_width * _height]);
        _ppi = 25.4 / (grid.MmPerPixel * _step);
        var (sums, counts, tops) = (new double[_height], new long[_height], new float[_height]);
        Parallel.For(0, _height, options, r =>
        {
            for (var c = 0; c < _width; c++)
            {
                var (sum, covered, all, top) = Cell(canvas, c, r);
                _um[r * _width + c] = (ushort)Math.Min(65535, Math.Round(100 * sum / all));
                _cover[r * _width + c] = (byte)Math.Round(255.0 * covered / all);
                sums[r] += sum;
                counts[r] += covered;
                tops[r] = Math.Max(tops[r], top);
            }
        });
        var total = counts.Sum();
        CoveredShare = (double)total / grid.Count;
        MeanUm = total > 0 ? sums.Sum() / total : 0;
        MaxUm = tops.Max();
    }

    public double CoveredShare { get; }

    public double MeanUm { get; }

    public double MaxUm { get; }

    /// <summary>Plane pixels along a side of a cell.</summary>
    public static int StepFor(PlaneGrid grid) => Math.Max(1, (int)Math.Round(0.42 / grid.MmPerPixel));

    public void Write(string folder, int number, string name)
    {
        Directory.CreateDirectory(folder);
        var stem = Path.Combine(folder, $"{number:00}_{name.Replace(' ', '_')}");
        Write<ushort>(stem + "_um100.tif", _um, 2);
        Write<byte>(stem + "_cover.tif", _cover, 1);
    }

    private void Write<T>(string path, T[] data, int bytes) where T : unmanaged
    {
        using var file = new TiffFile(path, new TiffLayout(_width, _height, 1, bytes, false, _ppi));
        file.WriteRows<T>(0, data);
        file.Commit();
    }

    private (double Sum, int Covered, int All, float Top) Cell(Canvas canvas, int column, int row)
    {
        var (grid, sum, covered, all, top) = (canvas.Grid, 0.0, 0, 0, 0f);
        for (var y = row * _step; y < Math.Min((row + 1) * _step, grid.Height); y++)
            for (var x = column * _step; x < Math.Min((column + 1) * _step, grid.Width); x++, all++)
            {
                var um = canvas.Layer[y * grid.Width + x];
                sum += um;
                if (um > 0.5f) covered++;
                top = Math.Max(top, um);
            }
        return (sum, covered, all, top);
    }
}
