using Sandarac.Imaging;

namespace Sandarac.Analysis.Unexplained;

/// <summary>A smooth field from one value for each cell of a grid: linear between the cells' middles.</summary>
/// <param name="Cells">The values.</param>
/// <param name="Across">Width of a cell.</param>
/// <param name="Down">Height of a cell.</param>
/// <param name="Beyond">How far beyond the outermost middles the field goes on linearly, cells; farther out it stays.</param>
internal sealed record CellField(Plane Cells, double Across, double Down, double Beyond = 0)
{
    /// <summary>The value at a place, in the unit of the cells' size.</summary>
    public float At(double x, double y)
    {
        var (i, u) = Between(x / Across, Cells.Width);
        var (j, v) = Between(y / Down, Cells.Height);
        var (i1, j1) = (Math.Min(i + 1, Cells.Width - 1), Math.Min(j + 1, Cells.Height - 1));
        return (1 - v) * ((1 - u) * Cells[i, j] + u * Cells[i1, j]) + v * ((1 - u) * Cells[i, j1] + u * Cells[i1, j1]);
    }

    /// <summary>Takes the field away from a window.</summary>
    /// <param name="plane">The window.</param>
    /// <param name="left">Its first column, pixels.</param>
    /// <param name="top">Its first row.</param>
    /// <param name="factor">Pixels along a unit of the cells' size.</param>
    public void SubtractFrom(Plane plane, int left, int top, int factor)
    {
        var field = Window(left, top, plane.Width, plane.Height, factor);
        for (var i = 0; i < plane.Data.Length; i++) plane.Data[i] -= field.Data[i];
    }

    /// <summary>The field over a window.</summary>
    /// <param name="left">Its first column, pixels.</param>
    /// <param name="top">Its first row.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    /// <param name="factor">Pixels along a unit of the cells' size.</param>
    public Plane Window(int left, int top, int width, int height, int factor = 1)
    {
        var (window, columns) = (new Plane(width, height), new (int Index, float Share)[width]);
        for (var x = 0; x < width; x++) columns[x] = Between((left + x + 0.5) / factor / Across, Cells.Width);
        for (var y = 0; y < height; y++)
        {
            var (j, v) = Between((top + y + 0.5) / factor / Down, Cells.Height);
            var row = window.Row(y);
            var upper = Cells.Row(j);
            var lower = Cells.Row(Math.Min(j + 1, Cells.Height - 1));
            for (var x = 0; x < width; x++)
            {
                var (i, u) = columns[x];
                var next = Math.Min(i + 1, Cells.Width - 1);
                row[x] = (1 - v) * ((1 - u) * upper[i] + u * upper[next]) + v * ((1 - u) * lower[i] + u * lower[next]);
            }
        }
        return window;
    }

    /// <summary>The value of the cell from which a place is reckoned.</summary>
    public float CellAt(double x, double y) => Cells[Between(x / Across, Cells.Width).Index, Between(y / Down, Cells.Height).Index];

    private (int Index, float Share) Between(double cells, int count)
    {
        var place = Math.Clamp(cells - 0.5, -Beyond, count - 1 + Beyond);
        var index = Math.Clamp((int)Math.Floor(place), 0, Math.Max(0, count - 2));
        return (index, (float)(place - index));
    }
}
