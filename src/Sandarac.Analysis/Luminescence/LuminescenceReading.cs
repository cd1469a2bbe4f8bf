using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Levels;
using Sandarac.Analysis.Lights;
using Sandarac.Analysis.Unexplained;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Luminescence;

/// <summary>Luminescence under ultraviolet, corrected, and where it is weaker than paint of its colour has it elsewhere on the painting.</summary>
public sealed class LuminescenceReading : Reading
{
    /// <summary>Longer side at which the model is fitted and parts are looked for.</summary>
    private const int WorkingSide = 1600;

    /// <summary>Parts along the longer side whose medians are the level: varnish changes over some centimetres.</summary>
    private const int LevelParts = 8;

    private static readonly NumberParameter LeastContrast = new("least-contrast", "Darker by a factor of", "A place is proposed when it luminesces this many times less than paint of its colour does around it.", null, 2, 1.2, 20);

    private static readonly LengthParameter LeastSize = new("least-size", "Smallest size", "Places with a smaller area than a square of this side are left out.", 2, 0.1, 100);

    private static readonly NumberParameter LeastDrop = new("least-varnish-drop", "Thin varnish", "A place is proposed for an earlier cleaning or a gap when its varnish luminesces less than the painting's middle by so many robust standard deviations of the varnish.", null, 4, 2, 20);

    private static readonly LengthParameter Detail = new("varnish-detail", "Detail of varnish", "Side of the square over which varnish is smoothed by its median.", 3, 0.2, 50);

    /// <inheritdoc/>
    public override Declaration Declaration { get; } = new()
    {
        Id = "luminescence",
        Version = 2,
        Title = "Luminescence: later additions and varnish",
        Summary = "Corrects a photograph of ultraviolet-induced luminescence, maps the varnish, and proposes places that stay darker than paint of their colour does elsewhere and places with little varnish: candidates for later additions, earlier cleanings and gaps.",
        Citation = "Flat fields: (A - B)/(W - B), common practice. Varnish glows over paint as far as the paint reflects: de la Rie, Studies in Conservation 27 (1982) 1 (from memory). Logarithm of luminescence as a second-degree polynomial of visible colour within blocks (fixed effects), weights of Holland and Welsch, Communications in Statistics A6 (1977) 813. Two groups of places: by medians, Bradley, Mangasarian and Street, Advances in Neural Information Processing Systems 9 (1997) 368; against evenly spread values by simulation.",
        Limits = "A candidate is a place to look at, not a finding: dirt, gaps in the varnish, thick glazes and pigments that quench luminescence also stay dark, and retouching whose luminescence matches is not seen. Over or under a varnish is told only where the places fall into two groups. The map of varnish has no zero and no unit of length: it compares places of one painting; varnish that does not luminesce is not in it, dirt hides it, and no luminescence does not prove that there is no varnish. Needs varnish or paint that luminesces. Without photographs of an even board, uneven lamps remain in the corrected picture; the candidates hardly depend on them. Luminescence is in units of the board's, or of full scale without one. Ultraviolet light harms eyes, skin and colours: goggles, cover and short exposures, as local rules say.",
        Inputs =
        [
            new("luminescence", "The photograph of luminescence under ultraviolet.", [Light.Luminescence]),
            new("visible", "The photograph in visible light.", [Light.Visible]),
            new("luminescence-board", "An even board under the ultraviolet lamps, same camera in the same place, if there is one.", [Light.Luminescence], 0, InOwnPixels: true, BoardOf: "luminescence"),
            new("visible-board", "An even board in visible light, if there is one.", [Light.Visible], 0, InOwnPixels: true, BoardOf: "visible"),
        ],
        Parameters = [LeastContrast, LeastSize, LeastDrop, Detail],
        Rasters =
        [
            new("corrected", "Luminescence, corrected", "relative", ["R", "G", "B"]),
            new("unexplained", "Luminescence that the colour does not explain", "ln", ["ln"]),
            new("varnish", "Luminescence of the varnish, from its median", "sd", ["sd"]),
        ],
        Figures =
        [
            new("scatter", "Spread of what the colour does not explain", "%", "Robust standard deviation within blocks of some 24 reduced pixels. A description, not an estimate."),
            new("leaked-light", "Visible light in the luminescence", "%", "For each band, as a share of the visible photograph's light: the slope in the darkest candidates; interval by leaving out one of them at a time."),
            new("candidates", "Places proposed for later additions", "1", "Counted; exact."),
            new("veiled-candidates", "Of these, with a veil of luminescence", "1", "Counted; exact. No answer where the places do not fall into two groups."),
            new("candidate-area", "Their area", "mm2", "Counted in reduced pixels; uncertain by half a pixel along the outline."),
            new("thin-varnish-area", "Area with little varnish", "mm2", "Counted in reduced pixels; uncertain by half a pixel along the outline."),
        ],
        Reach = new Reach.Whole(WorkingSide),
        OnPlane = true,
        RunsOnExamine = true,
    };

    /// <inheritdoc/>
    public override Outcome Run(RunContext context)
    {
        var (glow, visible) = (LightFrame.In("luminescence", context), LightFrame.In("visible", context));
        var reduced = ReducedLight.Of(glow, visible, ReducedLight.FactorFor(glow, WorkingSide), context);
        var band = Brightest(reduced.Other);
        if (ColourModel.Fit(reduced.Other[band], reduced.Visible) is not { } model) return new Outcome { NoAnswer = "Too few pixels have data in both photographs, or the visible one has a single tone." };
        var unexplained = model.Unexplained(reduced.Other[band], reduced.Visible);
        if (LevelField.Of(unexplained, LevelParts) is not { } level) return new Outcome { NoAnswer = "A large part of the painting has no data in one of the photographs." };
        level.SubtractFrom(unexplained, 0, 0, 1);
        var pixels = context.Pixels(LeastSize, glow.Image) / reduced.Factor;
        var (fewest, limit) = (Math.Max(1, (int)(pixels * pixels)), -Math.Max(Math.Log(context.Value(LeastContrast)), 5 * model.Scatter));
        var additions = DarkParts.Of(unexplained, (float)limit, fewest);
        var varnish = VarnishModel.Of(reduced, band, DarkParts.WithBorders(additions, unexplained), (int)Math.Ceiling(context.Pixels(Detail, glow.Image) / reduced.Factor));
        Write(context, glow, visible, band, model, level, varnish, reduced.Factor);
        return Found(context, reduced, band, model, (unexplained, limit, additions), (varnish, varnish is null ? [] : DarkParts.Of(varnish, (float)-context.Value(LeastDrop), fewest)), glow);
    }

    private static Outcome Found(RunContext context, ReducedLight light, int band, ColourModel model, (Plane Plane, double Limit, IReadOnlyList<DarkPart> Parts) dark, (Plane? Plane, IReadOnlyList<DarkPart> Parts) low, LightFrame glow)
    {
        var (places, leak) = (new PartFigures(dark.Plane, light.Factor, glow.Image.Scale), Enumerable.Range(0, glow.Bands).Select(b => Leaked(light, dark.Plane, dark.Parts, b, glow)).ToArray());
        var veils = VeilGroups.Of(light, band, [.. leak.Select(f => (f.Value ?? 0) / 100)], dark.Parts);
        var coats = new PartFigures(low.Plane ?? dark.Plane, light.Factor, glow.Image.Scale);
        DarkPart[] thin = [.. low.Parts.Where(coats.HasEdge)];
        return new Outcome
        {
            Candidates =
            [
                .. dark.Parts.Select((p, k) => Places.Addition(places, p, dark.Limit, veils[k])),
                .. thin.Select(p => Places.ThinVarnish(coats, p, -context.Value(LeastDrop))),
            ],
            Figures =
            [
                new("scatter", 100 * model.Scatter, null, "a description"),
                .. leak,
                new("candidates", dark.Parts.Count, null, "counted: exact"),
                veils.Any(v => v != Veil.NotTold) ? new("veiled-candidates", veils.Count(v => v == Veil.Veiled), null, "counted: exact") : new("veiled-candidates", null, null, "the places do not fall into two groups: no answer"),
                new("candidate-area", dark.Parts.Sum(places.Area), dark.Parts.Sum(places.AreaUncertainty)),
                low.Plane is null ? new("thin-varnish-area", null, null, "the luminescence does not vary: no answer") : new("thin-varnish-area", thin.Sum(coats.Area), thin.Sum(coats.AreaUncertainty)),
            ],
        };
    }

    private static int Brightest(Plane[] bands) => Enumerable.Range(0, bands.Length).MaxBy(b => Numbers.Robust.Median(bands[b].Data.Where(float.IsFinite).Select(v => (double)v)));

    private static Figure Leaked(ReducedLight reduced, Plane unexplained, IReadOnlyList<DarkPart> parts, int band, LightFrame glow)
    {
        var name = Bands.Name(glow.Image.Image.Facts, band);
        if (reduced.Visible.Length != reduced.Other.Length) return new Figure("leaked-light", null, null, "the two photographs have other bands: no answer", name);
        return LeakedLight.Of(reduced.Other[band], reduced.Visible[band], unexplained, parts) is { } leak
            ? new Figure("leaked-light", 100 * leak.Share, 100 * leak.Uncertainty, null, name)
            : new Figure("leaked-light", null, null, "fewer than three dark places to measure it in: no answer", name);
    }

    private static void Write(RunContext context, LightFrame glow, LightFrame visible, int band, ColourModel model, CellField level, Plane? varnish, int factor)
    {
        var (facts, scale) = (glow.Image.Image.Facts, glow.Image.Scale ?? visible.Image.Scale);
        var (corrected, coat) = (context.CreateRaster("corrected", facts.Width, facts.Height, scale), varnish is null ? null : context.CreateRaster("varnish", facts.Width, facts.Height, scale));
        var field = varnish is null ? null : new CellField(varnish, factor, factor);
        TiledRun.ForEach([glow.Image, visible.Image], 0, (tile, windows) =>
        {
            var light = glow.Of(windows[0], tile.Left, tile.Top);
            var rest = model.Unexplained(light[band], visible.Of(windows[1], tile.Left, tile.Top));
            level.SubtractFrom(rest, tile.Left, tile.Top, factor);
            lock (corrected) corrected.WriteWindow(tile.Left, tile.Top, light.Length == 3 ? light : [light[0], light[0], light[0]]);
            if (coat is not null) lock (coat) coat.WriteWindow(tile.Left, tile.Top, [Laid(field!, rest, tile.Left, tile.Top)]);
            return [rest];
        }, context.CreateRaster("unexplained", facts.Width, facts.Height, scale), context);
    }

    /// <summary>The map of varnish at full size, where the photographs have data.</summary>
    private static Plane Laid(CellField varnish, Plane rest, int left, int top)
    {
        var plane = varnish.Window(left, top, rest.Width, rest.Height);
        for (var i = 0; i < plane.Data.Length; i++)
            if (!float.IsFinite(rest.Data[i])) plane.Data[i] = float.NaN;
        return plane;
    }
}
