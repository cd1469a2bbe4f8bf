using System.Numerics;
using Sandarac.Specimen.Randomness;

namespace Sandarac.Specimen.Later;

/// <summary>Something that happened to the painting at one place.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Kind">What it is.</param>
/// <param name="From">Its middle, or one end of a line; mm.</param>
/// <param name="To">The other end of a line; the same place for a spot.</param>
/// <param name="WidthMm">Diameter of a spot, width of a line.</param>
/// <param name="Strength">How much of its effect it has, 0 to 1.</param>
internal sealed record Damage(int Number, DamageKind Kind, Vector2 From, Vector2 To, float WidthMm, float Strength)
{
    /// <summary>Share of a pixel that it fills: with an outline that is not quite round, sharp for what has an edge, soft for what has none.</summary>
    /// <param name="at">The pixel's centre, mm.</param>
    /// <param name="pixelMm">Its side.</param>
    /// <param name="seed">The painting's seed.</param>
    public float Share(Vector2 at, float pixelMm, int seed)
    {
        var radius = WidthMm / 2;
        var ragged = IsLine ? 0.4f : 0.25f;
        var grain = IsLine ? 2 : Math.Max(0.6f * WidthMm, 0.1f);
        var inside = radius * (1 + ragged * Noise.At(seed + 400 + Number, at.X / grain, at.Y / grain)) - Distance(at);
        return HasEdge ? Math.Clamp(0.5f + inside / pixelMm, 0, Math.Min(1, WidthMm / pixelMm)) : Shape.Step(-0.3f * radius, 0.3f * radius, inside);
    }

    /// <summary>Left, top, right and bottom beyond which it has no part, mm.</summary>
    public (float Left, float Top, float Right, float Bottom) Box
    {
        get
        {
            var reach = 0.9f * WidthMm + 1;
            return (Math.Min(From.X, To.X) - reach, Math.Min(From.Y, To.Y) - reach, Math.Max(From.X, To.X) + reach, Math.Max(From.Y, To.Y) + reach);
        }
    }

    private bool IsLine => From != To;

    private bool HasEdge => Kind is DamageKind.Loss or DamageKind.Speck or DamageKind.Scratch;

    private float Distance(Vector2 at)
    {
        var along = To - From;
        var t = IsLine ? Math.Clamp(Vector2.Dot(at - From, along) / along.LengthSquared(), 0, 1) : 0;
        return Vector2.Distance(at, From + t * along);
    }
}

/// <summary>What can happen to a painting on a journey or on a wall.</summary>
internal enum DamageKind
{
    /// <summary>A flake of paint gone down to the ground.</summary>
    Loss,

    /// <summary>A dark deposit, as flies leave it.</summary>
    Speck,

    /// <summary>A line of broken surface that scatters light.</summary>
    Scratch,

    /// <summary>Grime without an edge.</summary>
    Grime,

    /// <summary>A large part that has turned yellower, without an edge.</summary>
    Yellowing,
}
