namespace Sandarac.Analysis.Sections;

/// <summary>Layers that are consistent with varnish: they luminesce more than the resin, scatter no more light than it and show no grains. The bounds are ours, chosen on drawn sections.</summary>
internal static class VarnishCoats
{
    /// <summary>Lightness of luminescence above the resin's, and most standard deviation of lightness within, CIELAB.</summary>
    private const double Brighter = 6, MostGrain = 5;

    /// <summary>Rows at a boundary that blur mixes.</summary>
    private const int Mixed = 2;

    /// <summary>Thinner than this share of the section, a layer between coats may be dirt.</summary>
    private const double Thin = 0.06;

    /// <summary>Coats from the surface down; null where none lies there but what looks like varnish lies under other layers, which are then no varnish or hide some.</summary>
    public static int? Count(MeasuredSection section) => FromSurface(section) is var coats && coats == 0 && Enumerable.Range(2, Math.Max(0, section.Layers - 2)).Any(layer => IsLike(section, layer)) ? null : coats;

    private static int FromSurface(MeasuredSection section)
    {
        var coats = 0;
        for (var layer = section.Layers; layer >= 1; layer--)
        {
            if (IsLike(section, layer)) coats++;
            else if (!IsThin(section, layer)) break;
        }
        return coats;
    }

    /// <summary>Whether what looks like varnish lies at the bottom and nothing like it at the surface.</summary>
    public static bool LieBelow(MeasuredSection section) => section.Layers > 1 && IsLike(section, 1) && FromSurface(section) == 0;

    private static bool IsLike(MeasuredSection section, int layer)
    {
        var (look, resin) = (section.Look(layer), section.Look(section.Layers + 1));
        return section.Luminesces && look.Lab(1).L > resin.Lab(1).L + Brighter && look.Lab(0).L < resin.Lab(0).L + Brighter && Grain(section, layer) < MostGrain;
    }

    /// <summary>Deviation of lightness away from the boundaries, whose blur is no grain; in layers too thin for that, in all of it.</summary>
    private static double Grain(MeasuredSection section, int layer)
    {
        var (upper, lower) = (section.Finding.Edges[section.Layers - layer], section.Finding.Edges[section.Layers - layer + 1]);
        int Inward(int a, int b) => b - a >= 4 * Mixed ? Mixed : 0;
        return section.Finding.Profiles.Looks.Of([.. upper.Zip(lower, (a, b) => a + Inward(a, b))], [.. upper.Zip(lower, (a, b) => b - Inward(a, b))]).Deviation[0];
    }

    private static bool IsThin(MeasuredSection section, int layer)
    {
        double Height(Boundary upper, Boundary lower) => upper.Across.Zip(lower.Across, (a, b) => b - a).Average();
        var of = section.Of(layer);
        return Height(of.Upper, of.Lower) < Thin * Height(section.Boundaries[0], section.Boundaries[^1]);
    }
}
