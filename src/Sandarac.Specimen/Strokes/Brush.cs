using System.Numerics;
using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Strokes;

/// <summary>How a brush is held and loaded; the figures of one kind of handling.</summary>
internal sealed record Handling
{
    /// <summary>Width of the mark, mm.</summary>
    public required float WidthMm { get; init; }

    /// <summary>Mean thickness at the start of a full brush, um.</summary>
    public required float LoadUm { get; init; }

    /// <summary>Path after which an average bristle has given its paint, mm.</summary>
    public float RunOutMm { get; init; } = 90;

    /// <summary>Depth of the furrows between ridges, 0 (a flowing glaze) to 1 (stiff paint, hog bristle).</summary>
    public float Furrow { get; init; } = 0.55f;

    /// <summary>Distance between bristle clumps, mm.</summary>
    public float BristleMm { get; init; } = 0.45f;

    /// <summary>How unevenly the paint is mixed on the brush, 0 to 1: streaks of lighter and darker.</summary>
    public float Streak { get; init; } = 0.35f;

    /// <summary>Share of the paint beneath taken up per centimetre of path, 0 (onto dry paint) to 1.</summary>
    public float PickUp { get; init; } = 0.10f;

    /// <summary>Paint pushed up at the sides of the mark, share of the load.</summary>
    public float SideRidge { get; init; } = 0.5f;

    /// <summary>Mean distance between pauses of the hand, mm; each leaves a ridge across. 0 for none.</summary>
    public float PauseMm { get; init; }

    /// <summary>How raggedly bristles start and lift, share of the width.</summary>
    public float Ragged { get; init; } = 0.4f;
}

/// <summary>One mark of the brush.</summary>
/// <param name="Id">Number in its layer; seeds its bristles.</param>
/// <param name="Path">Points in mm, close enough to be joined by straight lines.</param>
/// <param name="Paint">What the brush carries.</param>
/// <param name="Hand">How.</param>
internal sealed record Stroke(int Id, Vector2[] Path, Paint Paint, Handling Hand)
{
    /// <summary>Box that holds the mark, mm.</summary>
    public (float Left, float Top, float Right, float Bottom) Bounds()
    {
        var half = Hand.WidthMm / 2 + 0.7f;
        return (Path.Min(p => p.X) - half, Path.Min(p => p.Y) - half, Path.Max(p => p.X) + half, Path.Max(p => p.Y) + half);
    }
}
