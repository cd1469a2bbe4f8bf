using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Strokes;

/// <summary>
/// Lays many marks in their order, on several threads: a mark waits for every earlier one whose box it touches, so the canvas is the same
/// as if they had
/// been laid one after another.
/// </summary>
internal static class Schedule
{
    private const float CellMm = 6;

    /// <param name="strokes">The marks in their order.</param>
    /// <param name="canvas">What they are laid on.</param>
    /// <param name="stream">Seeds their bristles.</param>
    /// <param name="before">Number of marks laid before these.</param>
    /// <param name="options">Threads.</param>
    public static void Lay(IEnumerable<Stroke> strokes, Canvas canvas, int stream, int before, ParallelOptions options)
    {
        foreach (var wave in Waves(strokes)) Parallel.ForEach(wave, options, s => Rasteriser.Lay(s, canvas, stream, before + s.Id + 1));
    }

    private static List<List<Stroke>> Waves(IEnumerable<Stroke> strokes)
    {
        var (columns, rows) = ((int)(SpecimenPainting.WidthMm / CellMm) + 1, (int)(SpecimenPainting.HeightMm / CellMm) + 1);
        var latest = new int[columns * rows];
        var waves = new List<List<Stroke>>();
        foreach (var stroke in strokes)
        {
            var cells = Cells(stroke, columns, rows).ToArray();
            var wave = cells.Length == 0 ? 0 : cells.Max(c => latest[c]);
            foreach (var c in cells) latest[c] = wave + 1;
            while (waves.Count <= wave) waves.Add([]);
            waves[wave].Add(stroke);
        }
        return waves;
    }

    private static IEnumerable<int> Cells(Stroke stroke, int columns, int rows)
    {
        var (left, top, right, bottom) = stroke.Bounds();
        for (var r = Math.Max(0, (int)(top / CellMm)); r <= Math.Min(rows - 1, (int)(bottom / CellMm)); r++)
            for (var c = Math.Max(0, (int)(left / CellMm)); c <= Math.Min(columns - 1, (int)(right / CellMm)); c++)
                yield return r * columns + c;
    }
}
