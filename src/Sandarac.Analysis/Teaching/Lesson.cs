using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>How to learn.</summary>
/// <param name="FinestMm">Standard deviation of the smallest window, mm.</param>
/// <param name="Trees">Trees of the forest.</param>
/// <param name="BlockMm">Marks of one class with a smaller gap are one example.</param>
internal sealed record LessonSettings(double FinestMm, int Trees, double BlockMm);

/// <summary>What was learnt from marks, and how well it holds on marks that were held out.</summary>
internal sealed class Lesson
{
    private readonly Forest _forest;

    private Lesson(Marks marks, FeatureSet features, Samples samples, MarkBlocks block, HeldOut? heldOut, LessonSettings settings, ParallelOptions threads)
    {
        (Marks, Features, HeldOut) = (marks, features, heldOut);
        (Classes, Blocks) = (marks.Classes.Count, BlocksOf(samples, block, marks.Classes.Count));
        int[] all = [.. Enumerable.Range(0, samples.Count)];
        _forest = TreeGrowing.Grow(samples, all, samples.Weights(block, all), Classes, settings.Trees, threads);
        Calibration = heldOut is null ? new Calibration(1, 0.5 / settings.Trees) : Calibration.Of(heldOut, settings.Trees);
        Assessment = heldOut is null ? null : new Assessment(heldOut, Classes, settings.Trees);
    }

    /// <summary>The marks.</summary>
    public Marks Marks { get; }

    /// <summary>Number of classes.</summary>
    public int Classes { get; }

    /// <summary>Separate examples of each class.</summary>
    public IReadOnlyList<int> Blocks { get; }

    /// <summary>What pixels are told by.</summary>
    public FeatureSet Features { get; }

    /// <summary>Judgements of marks that were held out; null when a class has less than two examples.</summary>
    public HeldOut? HeldOut { get; }

    /// <summary>How well the classes are told apart; null when a class has less than two examples.</summary>
    public Assessment? Assessment { get; }

    /// <summary>From the trees' shares to probabilities.</summary>
    public Calibration Calibration { get; }

    /// <summary>Learns.</summary>
    /// <param name="layers">The layers.</param>
    /// <param name="marks">The marks.</param>
    /// <param name="areas">The marks as areas, in pixels of the layers.</param>
    /// <param name="settings">How.</param>
    /// <param name="threads">How many at once, and whether still.</param>
    /// <returns>Null when fewer than two classes have marked pixels with data.</returns>
    public static Lesson? Learn(TaughtLayers layers, Marks marks, IReadOnlyList<Geometry> areas, LessonSettings settings, ParallelOptions threads)
    {
        var features = new FeatureSet(layers, settings.FinestMm);
        var samples = MarkedPixels.Of(features, areas, marks, threads);
        if (samples.Class.Distinct().Count() < Math.Max(2, marks.Classes.Count)) return null;
        var block = MarkBlocks.Of(areas, marks, settings.BlockMm / layers.MmPerPixel);
        var testable = BlocksOf(samples, block, marks.Classes.Count).All(n => n >= 2);
        var heldOut = testable ? HeldOut.Of(samples, block, marks.Classes.Count, settings.Trees, Groups(features), threads) : null;
        return new Lesson(marks, features, samples, block, heldOut, settings, threads);
    }

    /// <summary>Marks as areas: lines as wide as a stroke.</summary>
    /// <param name="marks">The marks.</param>
    /// <param name="unit">Pixels in a unit of their coordinates.</param>
    /// <param name="width">Width of a stroke, pixels.</param>
    public static IReadOnlyList<Geometry> Areas(Marks marks, double unit, double width) => [.. marks.All.Select(mark =>
    {
        var geometry = NetTopologySuite.Geometries.Utilities.AffineTransformation.ScaleInstance(unit, unit).Transform(mark.Geometry);
        return geometry is IPolygonal ? geometry : geometry.Buffer(width / 2, EndCapStyle.Round);
    })];

    /// <summary>Probabilities of the classes in a part of the image; NaN where a band has no data.</summary>
    /// <param name="tile">Features of a window about the part.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Columns.</param>
    /// <param name="height">Rows.</param>
    public Plane[] Probabilities(FeatureTile tile, int left, int top, int width, int height)
    {
        Plane[] planes = [.. Enumerable.Range(0, Classes).Select(_ => new Plane(width, height))];
        var (features, shares, column) = (new float[Features.Count * Forest.Run], new double[Classes * Forest.Run], new double[Classes]);
        for (var y = 0; y < height; y++)
            for (var x = 0; x < width; x += Forest.Run)
            {
                var count = Math.Min(Forest.Run, width - x);
                tile.Fill(left + x, top + y, count, features, Forest.Run);
                _forest.Judge(features, shares);
                for (var i = 0; i < count; i++) Write(planes, x + i, y, tile.HasData(left + x + i, top + y), shares.AsSpan(i), column);
            }
        return planes;
    }

    private void Write(Plane[] planes, int x, int y, bool hasData, ReadOnlySpan<double> shares, double[] column)
    {
        for (var k = 0; k < Classes; k++) column[k] = shares[k * Forest.Run];
        var probabilities = Calibration.Of(column);
        for (var k = 0; k < Classes; k++) planes[k][x, y] = hasData ? (float)probabilities[k] : float.NaN;
    }

    /// <summary>Which classes have too few separate examples; null when none has.</summary>
    public string? WhyNotEnough()
    {
        string[] few = [.. Enumerable.Range(0, Classes).Where(k => Blocks[k] < Assessment.FewestBlocks).Select(k => FormattableString.Invariant($"\"{Marks.Classes[k]}\" has {Blocks[k]}"))];
        return few.Length == 0 ? null : FormattableString.Invariant($"Not enough examples: {string.Join(", ", few)} of at least {Assessment.FewestBlocks} that lie apart.");
    }

    /// <summary>Whether a class can be told from every other; null when there are not enough examples to say.</summary>
    public bool? IsSeparable(int k) => Blocks[k] < Assessment.FewestBlocks || Assessment is null ? null : Assessment.NotToldFrom(k).Count == 0;

    /// <summary>What may be said of a class, in words.</summary>
    public string Verdict(int k)
    {
        if (IsSeparable(k) is null) return FormattableString.Invariant($"Not enough examples of \"{Marks.Classes[k]}\": {Blocks[k]} of at least {Assessment.FewestBlocks} that lie apart.");
        var same = Assessment!.NotToldFrom(k);
        return same.Count == 0 ? $"\"{Marks.Classes[k]}\" is separable from every other class."
            : $"\"{Marks.Classes[k]}\" is not separable from {string.Join(" and ", same.Select(c => $"\"{Marks.Classes[c]}\""))}: the interval of how well held-out examples are told apart includes chance.";
    }

    /// <summary>Features of each band, then of each layer that has several.</summary>
    private static IReadOnlyList<int[]> Groups(FeatureSet features)
    {
        var bands = features.Layers.Bands;
        int[] Of(IEnumerable<int> ofBands) => [.. ofBands.SelectMany(b => Enumerable.Range(b * features.PerBand, features.PerBand))];
        return [.. Enumerable.Range(0, bands.Count).Select(b => Of([b])), .. Enumerable.Range(0, bands.Count).GroupBy(b => bands[b].Layer).Select(Of)];
    }

    private static int[] BlocksOf(Samples samples, MarkBlocks block, int classes) =>
        [.. Enumerable.Range(0, classes).Select(k => Enumerable.Range(0, samples.Count).Where(i => samples.Class[i] == k).Select(i => block[samples.Mark[i]]).Distinct().Count())];
}
