using System.Runtime.Intrinsics;
using Sandarac.Imaging.Colour;
using Sandarac.Specimen.Optics;

namespace Sandarac.Specimen.Sections;

/// <summary>A layer that an invented section may have.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Paint">Its paint; for varnish and dirt only a name and no grains.</param>
/// <param name="ThinUm">Least mean thickness, um.</param>
/// <param name="ThickUm">Greatest mean thickness.</param>
/// <param name="Visible">What medium and fines reflect, linear.</param>
/// <param name="Glow">How it luminesces.</param>
/// <param name="Coverage">Share of the section in which it is there.</param>
internal sealed record InventedLayer(string Name, Paint Paint, float ThinUm, float ThickUm, Vector128<float> Visible, Vector128<float> Glow, float Coverage = 1)
{
    /// <summary>Layers that differ by less, in all lights, are one to any reader: CIELAB distance of what the two images show.</summary>
    private const double LeastDifference = 9;

    public bool CanBeToldFrom(InventedLayer other) => Math.Max(Distance(Visible, other.Visible), Distance(Glow, other.Glow)) >= LeastDifference;

    private static double Distance(Vector128<float> a, Vector128<float> b)
    {
        var (p, q) = (CieLab.FromLinear(a[0], a[1], a[2]), CieLab.FromLinear(b[0], b[1], b[2]));
        return Math.Sqrt((p.L - q.L) * (p.L - q.L) + (p.A - q.A) * (p.A - q.A) + (p.B - q.B) * (p.B - q.B));
    }
}
