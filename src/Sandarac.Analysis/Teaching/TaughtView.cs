using Sandarac.Imaging;

namespace Sandarac.Analysis.Teaching;

/// <summary>A class in a view.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Examples">Its separate examples.</param>
/// <param name="Verdict">How far it can be told from the others, in words.</param>
/// <param name="IsSeparable">Whether it can be told from every other class; null when there are not enough examples to say.</param>
/// <param name="Recognised">Part of its held-out examples that is recognised, 0 to 1; null when a class has less than two examples.</param>
/// <param name="Lower">Lower end of its 95 % interval.</param>
/// <param name="Upper">Upper end.</param>
/// <param name="Probability">Its probability in the view; NaN without data.</param>
public sealed record TaughtClass(string Name, int Examples, string Verdict, bool? IsSeparable, double? Recognised, double? Lower, double? Upper, Plane Probability);

/// <summary>What a band or a layer carries.</summary>
/// <param name="Name">"UVL_01.tif green", "all of UVL_01.tif".</param>
/// <param name="Share">Share of what all bands (layers) carry, 0 to 1; null when none carries anything.</param>
public sealed record CarriedBy(string Name, double? Share);

/// <summary>How far what was learnt holds on marks that were held out.</summary>
/// <param name="Balanced">Mean over the classes of the part that is recognised, 0 to 1.</param>
/// <param name="Lower">Lower end of its 95 % interval.</param>
/// <param name="Upper">Upper end.</param>
/// <param name="CalibrationError">Mean distance between the probability given and the share that was right, over the bins.</param>
/// <param name="Reliability">The reliability plot; bins without marks are left out.</param>
public sealed record TaughtQuality(double Balanced, double Lower, double Upper, double CalibrationError, IReadOnlyList<ReliabilityBin> Reliability)
{
    internal static TaughtQuality Of(Assessment assessment)
    {
        var (balanced, bins) = (assessment.Balanced, assessment.Reliability());
        return new TaughtQuality(balanced.Value, balanced.Lower, balanced.Upper, Assessment.CalibrationError(bins), [.. bins.Where(b => b.Weight > 0)]);
    }
}

/// <summary>What marks teach, seen in a part of the painting while a person is still marking: the same method as the reading, on smaller copies of the layers.</summary>
/// <param name="Classes">The classes in the order of the marks.</param>
/// <param name="Quality">How far it holds; null when a class has too few examples to say.</param>
/// <param name="Importance">What carries it, most first; empty when a class has less than two examples.</param>
public sealed record TaughtView(IReadOnlyList<TaughtClass> Classes, TaughtQuality? Quality, IReadOnlyList<CarriedBy> Importance)
{
    /// <summary>Fewer trees than the reading's: a person waits.</summary>
    private const int Trees = 50;

    private const int StripRows = 32;

    /// <summary>Learns and judges a part.</summary>
    /// <param name="layers">The layers at the size at which they are seen.</param>
    /// <param name="marks">The marks, in mm.</param>
    /// <param name="strokeMm">Width of a stroke, mm.</param>
    /// <param name="view">The part, pixels.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <returns>Null when fewer than two classes, or a class without marked pixels with data.</returns>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static TaughtView? Of(TaughtLayers layers, Marks marks, double strokeMm, (int Left, int Top, int Width, int Height) view, CancellationToken cancellation)
    {
        var threads = new ParallelOptions { CancellationToken = cancellation };
        // A stroke thinner than a pixel of the view marks the pixels under it all the same.
        var areas = Lesson.Areas(marks, 1 / layers.MmPerPixel, Math.Max(1.5, strokeMm / layers.MmPerPixel));
        if (marks.Classes.Count < 2 || Lesson.Learn(layers, marks, areas, new LessonSettings(FinestMm, Trees, BlockMm), threads) is not { } lesson) return null;
        var planes = Judge(lesson, view, threads);
        return new TaughtView([.. marks.Classes.Select((name, k) =>
        {
            var share = lesson.Assessment?.Recognised[k];
            return new TaughtClass(name, lesson.Blocks[k], lesson.Verdict(k), lesson.IsSeparable(k), share?.Value, share?.Lower, share?.Upper, planes[k]);
        })], lesson.WhyNotEnough() is null && lesson.Assessment is { } assessment ? TaughtQuality.Of(assessment) : null, lesson.HeldOut is null ? [] : [.. TaughtFigures.Importance(lesson).Select(f => new CarriedBy(f.Subject!, f.Value / 100))]);
    }

    private static double FinestMm => TaughtZonesReading.Finest.Default;

    private static double BlockMm => TaughtZonesReading.BlockDistance.Default;

    private static Plane[] Judge(Lesson lesson, (int Left, int Top, int Width, int Height) view, ParallelOptions threads)
    {
        Plane[] planes = [.. Enumerable.Range(0, lesson.Classes).Select(_ => new Plane(view.Width, view.Height))];
        var tile = lesson.Features.Of(view.Left, view.Top, view.Width, view.Height, threads);
        Parallel.For(0, (view.Height + StripRows - 1) / StripRows, threads, strip =>
        {
            var (top, rows) = (strip * StripRows, Math.Min(StripRows, view.Height - strip * StripRows));
            var judged = lesson.Probabilities(tile, view.Left, view.Top + top, view.Width, rows);
            for (var k = 0; k < planes.Length; k++) judged[k].Data.CopyTo(planes[k].Data, top * view.Width);
        });
        return planes;
    }
}
