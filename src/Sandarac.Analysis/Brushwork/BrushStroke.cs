using NetTopologySuite.Geometries;

namespace Sandarac.Analysis.Brushwork;

/// <summary>
/// A stroke as an object: an elongated piece of one colour and direction. The descriptors are those of Li, Yao, Hendriks and Wang, IEEE PAMI 34 (2012) 1159, from memory,
/// with straightness as chord over arc, which does not depend on how the picture lies.
/// </summary>
/// <param name="Pixels">Its pixels' indices, row by row.</param>
/// <param name="CentreLine">From end to end, mm on the plane.</param>
/// <param name="LengthMm">Length of the centre line.</param>
/// <param name="BreadthMm">Mean breadth along it.</param>
/// <param name="BreadthUnevenness">Standard deviation of the breadth over its mean.</param>
/// <param name="Straightness">Chord over arc of the centre line, 0 to 1.</param>
/// <param name="Angle">Direction of the furrows in it, radians from x towards y, 0 to pi.</param>
/// <param name="Agreement">How well they agree, 0 to 1.</param>
/// <param name="FurrowMm">How far apart its furrows lie; null where they are too narrow for the photograph or do not repeat.</param>
/// <param name="SqUm">Root mean square height between the relief's wavelengths, um.</param>
internal sealed record BrushStroke(IReadOnlyList<int> Pixels, IReadOnlyList<Coordinate> CentreLine, double LengthMm, double BreadthMm, double BreadthUnevenness, double Straightness,
    double Angle, double Agreement, double? FurrowMm, double SqUm)
{
    /// <summary>Area, mm2.</summary>
    public double AreaMm2 => LengthMm * BreadthMm;

    /// <summary>Length over breadth.</summary>
    public double Elongation => LengthMm / BreadthMm;

    /// <summary>Middle of the centre line, mm.</summary>
    public Coordinate Middle => CentreLine[CentreLine.Count / 2];

    /// <summary>Strokes whose middles lie within the neighbourhood; null until counted.</summary>
    public int? Neighbours { get; init; }

    /// <summary>Those of them that run within the like angle of it.</summary>
    public int? NeighboursAlike { get; init; }
}
