using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>Brings the boundaries that were found into agreement with a person's steps.</summary>
internal static class SteeredLayers
{
    /// <summary>A step this near to a boundary means that boundary, rows; others ask for one that was not found.</summary>
    private const double Near = 8;

    /// <summary>A drawn line that goes further than this beyond its neighbours crosses them, rows.</summary>
    private const int Beyond = 3;

    private const int Rounds = 4;

    /// <summary>Boundaries as a person wants them, from the top down, first and last row of the profiles included, and those between with what holds them (places in the profiles' frame).</summary>
    public sealed record Steered(int[][] Edges, IReadOnlyList<Course> Courses);

    /// <summary>Steers.</summary>
    /// <param name="profiles">The profiles.</param>
    /// <param name="frame">Their frame.</param>
    /// <param name="proposed">Boundaries proposed, first and last row included.</param>
    /// <param name="steps">The steps, in pixels of the micrograph.</param>
    /// <param name="factor">Its pixels along a side of one of the images from which the profiles come.</param>
    /// <param name="onlySteered">Whether boundaries that no step holds are left out.</param>
    /// <exception cref="Imaging.InputProblem">"clicks": a step lies beside the section, takes out what is not there, or crosses another boundary.</exception>
    public static Steered Of(Profiles profiles, StrataFrame frame, int[][] proposed, IReadOnlyList<SteeringStep> steps, int factor, bool onlySteered)
    {
        SteeringStep[] framed = [.. steps.Select(s => InFrame(profiles, frame, s.Scaled(1.0 / factor)))];
        var courses = Folded(profiles, proposed, framed);
        Course[] ordered = [.. courses.Where(c => !onlySteered || c.Name is not null).OrderBy(c => c.Edge.Average())];
        int[][] edges = [proposed[0], .. ordered.Select(c => c.Edge), proposed[^1]];
        int?[][] drawn = [new int?[profiles.Count], .. ordered.Select(c => c.Drawn(profiles)), new int?[profiles.Count]];
        for (var k = 0; k < ordered.Length; k++)
            if (Crossed(profiles, edges, ordered, k, drawn[k + 1]) is { } at) throw DrawnStretches.Crossing("A drawn line crosses another boundary", frame.ToImage(at.X, at.Y), factor);
        edges = DrawnStretches.InOrder(edges, (k, p) => drawn[k][p] is not null);
        // What is only taken out leaves the others where they were found.
        if (ordered.Any(c => c.Name is not null)) edges = LayerChain.Fit(profiles, edges, Rounds, Held(profiles, edges, ordered, drawn))?.Edges ?? edges;
        int[] kept = [.. Enumerable.Range(0, ordered.Length).Where(k => !ordered[k].IsOut)];
        return new Steered([edges[0], .. kept.Select(k => edges[k + 1]), edges[^1]], [.. kept.Select(k => ordered[k])]);
    }

    /// <summary>The courses after all steps. Steps of one boundary decide together which it is, so that one click on a steep place does not.</summary>
    private static List<Course> Folded(Profiles profiles, int[][] proposed, SteeringStep[] steps)
    {
        List<Course> courses = [.. proposed[1..^1].Select(e => new Course(e, true))];
        for (var i = 0; i < steps.Length; i++)
        {
            var step = steps[i];
            if (step.Kind == SteeringKind.Removal) Remove(profiles, courses, step);
            else Take(courses.Find(c => c.Name == step.Boundary) ?? Claimed(profiles, proposed, courses, [.. steps.Skip(i).Where(s => s.Boundary == step.Boundary).TakeWhile(s => s.Kind != SteeringKind.Removal)]), step);
        }
        return courses;
    }

    private static void Take(Course course, SteeringStep step)
    {
        if (step.Kind == SteeringKind.Stretch) course.Draw(step.Places);
        else course.Pin(step.Places[0]);
    }

    private static void Remove(Profiles profiles, List<Course> courses, SteeringStep step)
    {
        var course = courses.Find(c => c.Name == step.Boundary)
            ?? courses.Where(c => !c.IsOut).Select(c => (Course: c, Away: Away(profiles, c, step))).Where(c => c.Away <= Near).OrderBy(c => c.Away).FirstOrDefault().Course
            ?? throw Steering.Problem("There is no boundary where one is to be taken out.", "Undo this step, and point at the boundary as it runs now.");
        if (course.WasFound) course.TakeOut();
        else courses.Remove(course);
    }

    private static Course Claimed(Profiles profiles, int[][] proposed, List<Course> courses, SteeringStep[] steps)
    {
        var (course, away) = courses.Where(c => c.Name is null).Select(c => (Course: c, Away: steps.Average(s => Away(profiles, c, s)))).OrderBy(c => c.Away).FirstOrDefault();
        if (course is null || away > Near) courses.Add(course = new Course(Beside(profiles, proposed, steps[0].Places[0]), false));
        course.Claim(steps[0].Boundary);
        return course;
    }

    private static double Away(Profiles profiles, Course course, SteeringStep step) => Math.Abs(course.Edge[ProfileOf(profiles, step.Meant)] - step.Meant.Y);

    /// <summary>Puts a course's edge where it is drawn, between its neighbours, those taken out not counted; or says where in the frame it crosses one.</summary>
    private static Point2? Crossed(Profiles profiles, int[][] edges, Course[] ordered, int k, int?[] drawn)
    {
        var (above, below, laid) = (k - 1, k + 1, (int[])edges[k + 1].Clone());
        while (above >= 0 && ordered[above].IsOut) above--;
        while (below < ordered.Length && ordered[below].IsOut) below++;
        for (var p = 0; p < drawn.Length; p++)
        {
            if (drawn[p] is not { } row) continue;
            if (row < edges[above + 1][p] - Beyond || row > edges[below + 1][p] + Beyond) return new Point2(profiles.Along[p], row);
            laid[p] = row;
        }
        edges[k + 1] = laid;
        return null;
    }

    private static Dictionary<int, (int Profile, int Row)[]> Held(Profiles profiles, int[][] edges, Course[] ordered, int?[][] drawn) => Enumerable.Range(0, ordered.Length).ToDictionary(k => k + 1, k => (ValueTuple<int, int>[])
    [
        .. ordered[k].Pins.Select(q => (ProfileOf(profiles, q), (int)Math.Round(q.Y))).Where(q => drawn[k + 1][q.Item1] is null),
        .. Enumerable.Range(0, profiles.Count).Where(p => drawn[k + 1][p] is not null).Select(p => (p, edges[k + 1][p])),
    ]);

    private static SteeringStep InFrame(Profiles profiles, StrataFrame frame, SteeringStep step)
    {
        var framed = step with { Places = [.. step.Places.Select(frame.FromImage)], Meant = frame.FromImage(step.Meant) };
        var (left, right) = (profiles.Along[0] - Profiles.Bundle, profiles.Along[^1] + Profiles.Bundle);
        bool IsBeside(Point2 p) => p.Y < 1 || p.Y > profiles.Rows - 1;
        // A line may be drawn on past the ends of a sample; a click there means nothing.
        var beside = step.Kind == SteeringKind.Stretch ? framed.Places.All(p => p.X < left) || framed.Places.All(p => p.X > right) : framed.Places[0].X < left || framed.Places[0].X > right;
        if (beside || framed.Places.Any(IsBeside) || step.Places.Any(p => p.X < 0 || p.Y < 0 || p.X > frame.ImageWidth || p.Y > frame.ImageHeight))
            throw Steering.Problem(step.Kind == SteeringKind.Stretch ? "A drawn line lies beside the section." : "A click lies beside the section.", "Keep to boundaries of layers in the micrograph in visible light.");
        return framed;
    }

    private static int ProfileOf(Profiles profiles, Point2 place) => Math.Clamp((int)((place.X - profiles.Along[0]) / Profiles.Bundle + 0.5), 0, profiles.Count - 1);

    /// <summary>A course through a place, at the same share of the way between the boundaries on either side.</summary>
    private static int[] Beside(Profiles profiles, int[][] proposed, Point2 place)
    {
        var p = ProfileOf(profiles, place);
        var k = Math.Clamp(Array.FindLastIndex(proposed, e => e[p] <= place.Y), 0, proposed.Length - 2);
        var (above, below) = (proposed[k], proposed[k + 1]);
        var (up, down) = (place.Y - above[p], below[p] - place.Y);
        // In the resin, or in a layer many times as thick, it runs along the nearer boundary.
        if (k == 0) return [.. below.Select(b => Math.Max(0, b - (int)Math.Round(down)))];
        if (k == proposed.Length - 2) return [.. above.Select(a => Math.Min(profiles.Rows, a + (int)Math.Round(up)))];
        return [.. above.Zip(below, (a, b) => a + (int)Math.Round(up / Math.Max(1, up + down) * (b - a)))];
    }
}
