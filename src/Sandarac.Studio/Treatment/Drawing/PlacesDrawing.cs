using NetTopologySuite.Geometries;
using Sandarac.Imaging;
using Sandarac.Materials.Terms;
using Sandarac.Studio.Plans;
using Sandarac.Studio.Plans.Drawing;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Treatment.Drawing;

/// <summary>Draws on the painted face where a step was done until a day and where it is still to do: level lines and dots, told apart without colour, each with an outline of its own. What was retouched has a hatch that no cleaning has.</summary>
public static class PlacesDrawing
{
    /// <summary>What was done.</summary>
    public static Appearance Done { get; } = Own("done", new ZoneOutline([], 0.5), Hatch.Parse(0, "2x1.6", "M0 .8H2", ""));

    /// <summary>What was added by retouching.</summary>
    public static Appearance Retouched { get; } = Own("retouched", new ZoneOutline([], 0.5), Hatch.Parse(60, "3x1.2", "M0 .3H1.8M1.5 .9H3", ""));

    /// <summary>What is still to do.</summary>
    public static Appearance ToDo { get; } = Own("to do", new ZoneOutline([1.6, 0.8], 0.35), Hatch.Parse(0, "3.2x3.2", "", "M.8 .8h.01M2.4 2.4h.01"));

    /// <summary>How what was done by a kind of work is drawn.</summary>
    public static Appearance DoneBy(StepKind kind) => kind == StepKind.Retouching ? Retouched : Done;

    /// <summary>Draws a step.</summary>
    /// <param name="studio">The studio.</param>
    /// <param name="stepId">The step.</param>
    /// <param name="day">The day at whose end it is drawn; null for today.</param>
    /// <param name="light">What lies under it: a layer's id, a light's code, or "none"; null for visible light.</param>
    /// <param name="size">How large; null for an upright A4 page.</param>
    /// <exception cref="InputProblem">"unknown-step"; what is wrong with the light or the size; the painting's size is not known ("no-size").</exception>
    public static string Svg(OpenStudio studio, Guid stepId, DateOnly? day = null, string? light = null, PlanSize? size = null)
    {
        var step = new TreatmentSteps(studio).Find(stepId);
        var plan = new ConditionPlans(studio).Of(step.PaintingId);
        var (work, until) = (new StepWork(TreatmentRecord.Read(studio, step.PaintingId), step), day ?? studio.Today);
        var sheet = new PlanSheet(plan, ConditionPlanDrawing.Checked(size), Underlay.Of(studio, plan, light));
        (Appearance Look, Geometry Area, string Text)[] parts = [(DoneBy(step.Content.Kind), work.Done(until), "in the log, each place once"), (ToDo, work.ToDo(until), "of the step's place")];
        foreach (var (look, area, _) in parts) Draw(sheet, look, area);
        return sheet.Finish($"{step.Content.Name}, {PlanWords.Day(until)}", [.. parts.Select(p => new LegendRow(PlanLegend.Draw(p.Look), p.Look.Name, p.Text, PlanWords.Area(p.Area.Area, null)))]);
    }

    private static void Draw(PlanSheet sheet, Appearance look, Geometry area)
    {
        var placed = sheet.Face.Place(area);
        sheet.Hatch(look, placed);
        sheet.Line(Ink.PathOf(placed), look);
    }

    private static Appearance Own(string name, ZoneOutline outline, Hatch hatch) => Appearance.Note with { Key = name, Kind = name, Name = name, Code = "", Ink = Plans.Drawing.Ink.Black, Outline = outline, Hatch = hatch, HasOwnHatch = true };
}
