using Sandarac.Imaging.Geometry;

namespace Sandarac.Analysis.Sections;

/// <summary>A boundary while it is steered; places in the profiles' frame.</summary>
internal sealed class Course(int[] edge, bool wasFound)
{
    /// <summary>A line drawn by hand steps back along the strata by less than this share of its extent: a hand trembles, a boundary does not turn.</summary>
    private const double MostRetreat = 0.1;

    /// <summary>Row in each profile.</summary>
    public int[] Edge { get; } = [.. edge];

    /// <summary>Whether it was found without a person; else it is there because somebody asked for it.</summary>
    public bool WasFound { get; } = wasFound;

    /// <summary>Name of the steps that steer it; null when none does.</summary>
    public string? Name { get; private set; }

    /// <summary>Whether it was taken out.</summary>
    public bool IsOut { get; private set; }

    /// <summary>Places that it passes through.</summary>
    public List<Point2> Pins { get; } = [];

    /// <summary>Stretches that are drawn, each rising along the strata, the later over the earlier.</summary>
    public List<Point2[]> Stretches { get; } = [];

    /// <summary>A person steers it from here on.</summary>
    public void Claim(string name) => (Name, IsOut) = (name, false);

    /// <summary>Takes it out, and what steered it.</summary>
    public void TakeOut()
    {
        (Name, IsOut) = (null, true);
        Pins.Clear();
        Stretches.Clear();
    }

    /// <summary>It passes through a place.</summary>
    /// <exception cref="Imaging.InputProblem">"clicks": a drawn stretch says already where it runs there.</exception>
    public void Pin(Point2 place)
    {
        if (Stretches.Any(s => s[0].X <= place.X && place.X <= s[^1].X)) throw Steering.Problem("A click lies where its boundary is drawn by hand.", "Draw that stretch anew, or undo it first.");
        Pins.Add(place);
    }

    /// <summary>It runs along a line, which replaces the clicks within its reach.</summary>
    /// <exception cref="Imaging.InputProblem">"clicks": the line turns back, or runs across the strata.</exception>
    public void Draw(IReadOnlyList<Point2> line)
    {
        Point2[] along = line[0].X <= line[^1].X ? [.. line] : [.. line.Reverse()];
        var (extent, retreat, rising) = (along.Max(p => p.X) - along.Min(p => p.X), 0.0, new List<Point2> { along[0] });
        foreach (var p in along.Skip(1))
            if (p.X > rising[^1].X) rising.Add(p);
            else retreat = Math.Max(retreat, rising[^1].X - p.X);
        if (rising.Count < 2 || retreat > MostRetreat * extent)
            throw Steering.Problem("A drawn line turns back, or runs across the layers.", "Draw along the boundary in one direction: it crosses each perpendicular of the layers once.");
        Pins.RemoveAll(p => rising[0].X <= p.X && p.X <= rising[^1].X);
        Stretches.Add([.. rising]);
    }

    /// <summary>Rows of the profiles along the stretches; null where none is drawn.</summary>
    public int?[] Drawn(Profiles profiles) => [.. profiles.Along.Select(u => Stretches.LastOrDefault(s => s[0].X <= u && u <= s[^1].X) is { } s ? (int?)Math.Clamp((int)Math.Round(DrawnStretches.At(s, u)), 0, profiles.Rows) : null)];
}
