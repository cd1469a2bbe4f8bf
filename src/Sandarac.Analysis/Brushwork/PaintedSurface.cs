using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Relief;
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
        var pass = ReliefPass.Over(set, context, (tile, surface) => ReliefPass.Put(surface.Albedo, albedo, tile));
        ReliefJudgement.Refuse(set, pass);
        Plane[] planes = [.. new[] { pass.Right, pass.Down, pass.Confidence, albedo }.Select(p => factor == 1 ? p : ReducedLight.Reduced(p, factor))];
        var height = HeightMap.Integrate(planes[0], planes[1], 1000 * mm * factor, planes[2], threads);
        return height is null ? null : (new Surface(planes[0], planes[1], height, Colour(planes[3], factor, context), mm * factor), factor, ReliefJudgement.Warnings(set, pass, double.PositiveInfinity));
    }

    /// <summary>CIELAB of the visible photograph, or the lightness of the albedo.</summary>
    private static Plane[] Colour(Plane albedo, int factor, RunContext context)
    {
        if (context.Inputs("visible").Count == 0) return [albedo.Select(v => (float)CieLab.FromLinear(v, v, v).L)];
        var frame = LightFrame.In("visible", context);
        Plane[] lab = [.. Enumerable.Range(0, frame.Bands >= 3 ? 3 : 1).Select(_ => new Plane(albedo.Width, albedo.Height))];
        TiledRun.Map([frame.Image], factor * Math.Max(1, TileSize / factor), 0, (tile, windows) =>
        {
            var light = frame.Of(windows[0], tile.Left, tile.Top).Select(b => ReducedLight.Reduced(b, factor)).ToArray();
            foreach (var (from, to) in Lab(light, lab.Length).Zip(lab)) Put(from, to, tile.Left / factor, tile.Top / factor);
            return 0;
        }, context);
        return lab;
    }

    private static Plane[] Lab(Plane[] light, int bands)
    {
        Plane[] lab = [.. Enumerable.Range(0, bands).Select(_ => new Plane(light[0].Width, light[0].Height))];
        for (var i = 0; i < lab[0].Data.Length; i++)
        {
            var colour = CieLab.FromLinear(light[0].Data[i], light[bands / 2].Data[i], light[bands - 1].Data[i]);
            lab[0].Data[i] = (float)colour.L;
            if (bands == 3) (lab[1].Data[i], lab[2].Data[i]) = ((float)colour.A, (float)colour.B);
        }
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
