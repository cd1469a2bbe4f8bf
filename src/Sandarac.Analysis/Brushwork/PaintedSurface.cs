using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Relief;
using Sandarac.Analysis.Sections;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;
using Sandarac.Imaging.Colour;

namespace Sandarac.Analysis.Brushwork;

/// <summary>Brings a run's photographs together to the surface: slopes and height from raking light, colour from visible light or, without it, from what raking light leaves.</summary>
internal static class PaintedSurface
{
    /// <summary>Longer side at most, pixels.</summary>
    public const int MostPixels = 5000;

    private const int TileSize = 512;

    /// <summary>The inputs of a reading of brushwork.</summary>
    public static readonly IReadOnlyList<InputSlot> Slots =
    [
        .. RakingSet.Slots,
        new("visible", "The photograph in visible light; without it, lightness is taken from raking light.", [Light.Visible], 0),
        new("visible-board", "An even board in visible light, if there is one.", [Light.Visible], 0, InOwnPixels: true, BoardOf: "visible"),
    ];

    /// <summary>The surface, how many of the photographs' pixels lie along one of its, and what to warn of; null when no place is lit by three lamps.</summary>
    /// <param name="set">The raking photographs.</param>
    /// <param name="context">The run; slot "visible".</param>
    /// <param name="threads">Threads and cancellation.</param>
    public static (Surface Surface, int Factor, IReadOnlyList<Warning> Warnings)? Of(RakingSet set, RunContext context, ParallelOptions threads)
    {
        var (facts, mm) = (set.Images[0].Image.Facts, set.Images[0].Scale!.Value.MmPerPixel);
        var factor = (Math.Max(facts.Width, facts.Height) + MostPixels - 1) / MostPixels;
        var albedo = new Plane(facts.Width, facts.Height);
        context.Begin(0.1, 0.3);
        var pass = ReliefPass.Over(set, context, (tile, surface) => ReliefPass.Put(surface.Albedo, albedo, tile));
        ReliefJudgement.Refuse(set, pass);
        Plane[] planes = [.. new[] { pass.Right, pass.Down, pass.Confidence, albedo }.Select(p => factor == 1 ? p : ReducedLight.Reduced(p, factor))];
        context.Begin(0.3, 0.4);
        var height = HeightMap.Integrate(planes[0], planes[1], 1000 * mm * factor, planes[2], threads);
        return height is null ? null : (new Surface(planes[0], planes[1], height, Colour(planes[3], factor, context), mm * factor), factor, ReliefJudgement.Warnings(set, pass, double.PositiveInfinity));
    }

    /// <summary>CIELAB of the visible photograph, or the lightness of the albedo.</summary>
    private static Plane[] Colour(Plane albedo, int factor, RunContext context)
    {
        if (context.Inputs("visible").Count == 0) return [albedo.Select(v => (float)CieLab.FromLinear(v, v, v).L)];
        context.Begin(0.4, 0.5);
        var frame = LightFrame.In("visible", context);
        var bands = frame.Bands >= 3 ? 3 : 1;
        Plane[] lab = [.. Enumerable.Range(0, bands).Select(_ => new Plane(albedo.Width, albedo.Height))];
        var single = new ParallelOptions { MaxDegreeOfParallelism = 1 };
        TiledRun.Map([frame.Image], factor * Math.Max(1, TileSize / factor), 0, (tile, windows) =>
        {
            Plane[] light = [.. frame.Of(windows[0], tile.Left, tile.Top).Take(bands).Select(b => ReducedLight.Reduced(b, factor))];
            foreach (var (channel, to) in Micrographs.ToChannels(light, single).Zip(lab)) Put(new Plane(light[0].Width, light[0].Height, channel), to, tile.Left / factor, tile.Top / factor);
            return 0;
        }, context);
        return lab;
    }

    /// <summary>What is left over at the right and lower side is left out.</summary>
    private static void Put(Plane from, Plane to, int left, int top)
    {
        var width = Math.Min(from.Width, to.Width - left);
        for (var y = 0; y < from.Height && top + y < to.Height; y++)
            if (width > 0) from.Row(y)[..width].CopyTo(to.Row(top + y)[left..]);
    }
}
