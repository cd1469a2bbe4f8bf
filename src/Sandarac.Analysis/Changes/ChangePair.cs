using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Changes;

/// <summary>Two photographs of one painting as light on one grid; what either does not show is NaN in all bands of both.</summary>
/// <param name="Baseline">Bands of the earlier one.</param>
/// <param name="Later">Bands of the later one.</param>
internal sealed record ChangePair(Plane[] Baseline, Plane[] Later)
{
    /// <summary>Light beyond which a value is taken as clipped, share of full scale.</summary>
    private const float Clipped = 0.995f;

    public int Width => Baseline[0].Width;

    public int Height => Baseline[0].Height;

    public int Bands => Baseline.Length;

    /// <summary>Whether both show a pixel.</summary>
    public bool Shows(int pixel) => float.IsFinite(Baseline[0].Data[pixel]);

    /// <summary>How many pixels both show.</summary>
    public int Shown => Baseline[0].Data.Count(float.IsFinite);

    /// <summary>Whether both are one photograph: differences that are all zero have no noise to be measured by.</summary>
    public bool IsOne => Baseline.Zip(Later).All(b => b.First.Data.AsSpan().SequenceEqual(b.Second.Data));

    /// <summary>Reads the two, brought down by a whole factor.</summary>
    /// <param name="baseline">The earlier one.</param>
    /// <param name="later">The later one.</param>
    /// <param name="factor">Pixels along a pixel of the result.</param>
    /// <param name="rim">Pixels of the result along every side that are left out: what lies behind a painting's edge shows there as soon as the two are aligned a little differently.</param>
    /// <param name="context">Reads and cancels.</param>
    public static ChangePair Read(LightFrame baseline, LightFrame later, int factor, int rim, RunContext context)
    {
        var light = ReducedLight.Of(baseline, later, factor, context);
        foreach (var band in light.Other)
            for (var y = 0; y < band.Height; y++)
                for (var x = 0; x < band.Width; x++)
                    if (Math.Min(Math.Min(x, y), Math.Min(band.Width - 1 - x, band.Height - 1 - y)) < rim) band[x, y] = float.NaN;
        return Masked(light.Other, light.Visible);
    }

    /// <summary>The same from planes: where one has no data, is clipped or wholly black, both have none.</summary>
    public static ChangePair Masked(Plane[] baseline, Plane[] later)
    {
        for (var i = 0; i < baseline[0].Data.Length; i++)
        {
            if (IsUsable(baseline, i) && IsUsable(later, i)) continue;
            foreach (var band in baseline.Concat(later)) band.Data[i] = float.NaN;
        }
        return new ChangePair(baseline, later);
    }

    /// <summary>Black in every band is what a resampled file holds where its photograph ends.</summary>
    private static bool IsUsable(Plane[] bands, int i) => bands.All(b => float.IsFinite(b.Data[i]) && b.Data[i] < Clipped) && bands.Any(b => b.Data[i] > 0);
}
