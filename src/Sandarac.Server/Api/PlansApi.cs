using System.Globalization;
using System.Text;
using Sandarac.Materials.Terms;
using Sandarac.Studio;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Plans.Drawing;

namespace Sandarac.Server.Api;

/// <summary>A hatch as the viewer draws it: strokes of the fine and the broad pen as places in the cell, mm on a printed sheet.</summary>
internal sealed record HatchShape(double Angle, double Width, double Height, IReadOnlyList<IReadOnlyList<double[]>> Fine, IReadOnlyList<IReadOnlyList<double[]>> Bold);

/// <summary>How a kind of phenomenon is drawn.</summary>
/// <param name="Key">The term's key, or the word of a kind that no term names.</param>
/// <param name="Kind">What readings call it; empty when they do not.</param>
/// <param name="Category">"condition", "technique" or "treatment"; "reading" for what no term names.</param>
/// <param name="Group">The layer that it belongs to.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Code">Its letters.</param>
/// <param name="Ink">"#0072b2".</param>
/// <param name="Outline">The line around it.</param>
/// <param name="Hatch">What fills it.</param>
/// <param name="HasOwnHatch">Whether no other term has that hatch.</param>
internal sealed record AppearanceShape(string Key, string Kind, string Category, string Group, string Name, string Code, string Ink, ZoneOutline Outline, HatchShape Hatch, bool HasOwnHatch)
{
    public static AppearanceShape Of(Appearance a, string? category) => new(a.Key, a.Kind, category ?? "reading", a.Group, a.Name, a.Code, a.Ink, a.Outline,
        new HatchShape(a.Hatch.AngleDeg, a.Hatch.WidthMm, a.Hatch.HeightMm, Strokes(a.Hatch, bold: false), Strokes(a.Hatch, bold: true)), a.HasOwnHatch);

    private static IReadOnlyList<IReadOnlyList<double[]>> Strokes(Hatch hatch, bool bold) => [.. hatch.Strokes.Where(s => s.IsBold == bold).Select(s => s.Points.Select(p => new[] { p.X, p.Y }).ToList())];
}

/// <summary>What something takes of the painted face; half-widths of 95 % intervals, null where they cannot be known.</summary>
internal sealed record ExtentShape(double AreaMm2, double? AreaUncertaintyMm2, double FaceShare, double? FaceShareUncertainty, double LengthMm, double? LengthUncertaintyMm, int Lines, int Points, string Note)
{
    public static ExtentShape Of(PlanExtent e) => new(e.Extent.AreaMm2, e.Extent.AreaUncertaintyMm2, e.Extent.FaceShare, e.Extent.FaceShareUncertainty, e.LengthMm, e.LengthUncertaintyMm, e.Lines, e.Points, e.Extent.Note);
}

/// <summary>A term of the areas table.</summary>
internal sealed record TermExtentShape(string Key, string Code, string Name, IReadOnlyList<int> Findings, ExtentShape Extent);

/// <summary>The areas of a state: term by term, places that several zones cover once; and all together.</summary>
internal sealed record AreasShape(string State, DateTime AsOf, bool IsSealed, int ChangedSince, IReadOnlyList<TermExtentShape> Terms, ExtentShape Whole);

/// <summary>What became of a finding between two states. A change of area that is not beyond its uncertainty is none that was measured.</summary>
internal sealed record FindingDifferenceShape(Guid FindingId, int Number, Became Became, ExtentShape? Before, ExtentShape? After, double ChangeMm2, double? UncertaintyMm2, bool? IsBeyondUncertainty, double GainedMm2, double LostMm2)
{
    public static FindingDifferenceShape Of(FindingDifference d) => new(d.Finding.Id, d.Number, d.Became, d.Before is null ? null : ExtentShape.Of(d.Before), d.After is null ? null : ExtentShape.Of(d.After), d.ChangeMm2, d.UncertaintyMm2, d.IsBeyondUncertainty, d.GainedMm2, d.LostMm2);
}

/// <summary>Condition plans: states, drawings, areas, differences, and how each kind of phenomenon is drawn.</summary>
internal static class PlansApi
{
    public static void MapPlans(this RouteGroupBuilder api)
    {
        api.MapWritten("condition-states", studio => new ConditionStates(studio));
        api.MapGet("/appearances", Appearances).WithSummary("How each kind of phenomenon is drawn: hatch, outline, letters and ink");
        api.MapGet("/paintings/{id:guid}/plan.svg", Drawing).WithSummary("The condition plan of a state, or of the findings as they stand; with `before` what differs from that state (\"now\" for the findings as they stand)").Produces<string>(StatusCodes.Status200OK, "image/svg+xml");
        api.MapGet("/paintings/{id:guid}/plan/areas", Areas).WithSummary("Areas, lengths and counts of a state's findings by term");
        api.MapGet("/paintings/{id:guid}/plan/areas.csv", (Guid id, OpenStudio studio, Guid? state) => Results.Text(Csv(new ConditionPlans(studio).Of(id, state)), "text/csv; charset=utf-8", Encoding.UTF8)).WithSummary("The same as a table").Produces<string>(StatusCodes.Status200OK, "text/csv");
        api.MapGet("/paintings/{id:guid}/plan/difference", (Guid id, OpenStudio studio, Guid? before, Guid? after) => new ConditionPlans(studio).Difference(id, before, after).Findings.Select(FindingDifferenceShape.Of).ToList())
            .WithSummary("What became of each finding between two states; a state that is left out means the findings as they stand");
    }

    private static IReadOnlyList<AppearanceShape> Appearances(OpenStudio studio)
    {
        var categories = new StudioTerms(studio).All().ToDictionary(t => t.Key, t => t.Category);
        return [.. StudioAppearances.Of(studio).All.Select(a => AppearanceShape.Of(a, categories.GetValueOrDefault(a.Key)))];
    }

    private static IResult Drawing(Guid id, OpenStudio studio, Guid? state, string? before, string? light, double? widthMm, double? faceHeightMm)
    {
        var (plans, size) = (new ConditionPlans(studio), new PlanSize(widthMm ?? new PlanSize().WidthMm, faceHeightMm ?? new PlanSize().FaceHeightMm));
        var svg = string.IsNullOrEmpty(before) ? ConditionPlanDrawing.Svg(studio, plans.Of(id, state), light, size) : DifferenceDrawing.Svg(studio, plans.Difference(id, StateOf(before), state), light, size);
        return Results.Text(svg, "image/svg+xml; charset=utf-8");
    }

    /// <summary>A state by its key; "now" for the findings as they stand.</summary>
    private static Guid? StateOf(string text) => text == "now" ? null
        : Guid.TryParse(text, out var id) ? id : throw new Imaging.InputProblem("unknown-state", text, "There is no such state of this painting.", "The plan's page lists its states.");

    private static AreasShape Areas(Guid id, OpenStudio studio, Guid? state)
    {
        var plan = new ConditionPlans(studio).Of(id, state);
        var terms = PlanAreas.Of(plan);
        return new AreasShape(plan.Name, plan.AsOf, plan.IsSealed, plan.ChangedSince, [.. terms.Select(t => new TermExtentShape(t.Appearance.Key, t.Appearance.Code, t.Appearance.Name, t.Numbers, ExtentShape.Of(t.Extent)))], ExtentShape.Of(PlanAreas.Whole(plan, terms)));
    }

    /// <summary>RFC 4180, figures unrounded.</summary>
    private static string Csv(ConditionPlan plan)
    {
        var csv = new StringBuilder("term,code,findings,area mm2,area uncertainty mm2 (95 %),share of face,share uncertainty (95 %),length mm,length uncertainty mm (95 %),lines,points\r\n");
        var terms = PlanAreas.Of(plan);
        foreach (var term in terms) Append(csv, term.Appearance.Name, term.Appearance.Code, string.Join(' ', term.Numbers), term.Extent);
        Append(csv, "all, each place once", "", string.Join(' ', plan.Findings.Select(f => f.Number)), PlanAreas.Whole(plan, terms));
        return csv.ToString();
    }

    private static void Append(StringBuilder csv, string term, string code, string findings, PlanExtent e) => csv.Append(CultureInfo.InvariantCulture,
        $"\"{term.Replace("\"", "\"\"", StringComparison.Ordinal)}\",{code},{findings},{e.Extent.AreaMm2},{e.Extent.AreaUncertaintyMm2},{e.Extent.FaceShare},{e.Extent.FaceShareUncertainty},{e.LengthMm},{e.LengthUncertaintyMm},{e.Lines},{e.Points}\r\n");
}
