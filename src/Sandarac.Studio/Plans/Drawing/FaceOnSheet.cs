using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Simplify;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>Where the painted face lies on the sheet, its upper left corner at (0, 0), and how large.</summary>
internal sealed class FaceOnSheet
{
    /// <summary>What an outline may be off on the sheet for a shorter file, mm; a tenth of a line's breadth.</summary>
    private const double Tolerance = 0.03;

    private readonly AffineTransformation _scale;

    /// <param name="painting">Its size is known.</param>
    /// <param name="mostWidth">Room for it, mm.</param>
    /// <param name="mostHeight">Room for it, mm.</param>
    public FaceOnSheet(Painting painting, double mostWidth, double mostHeight)
    {
        Scale = Math.Min(mostWidth / painting.WidthMm, mostHeight / painting.HeightMm);
        (Width, Height) = (Scale * painting.WidthMm, Scale * painting.HeightMm);
        _scale = AffineTransformation.ScaleInstance(Scale, Scale);
    }

    /// <summary>mm on the sheet for one on the painting.</summary>
    public double Scale { get; }

    /// <summary>Width of the face, mm on the sheet.</summary>
    public double Width { get; }

    /// <summary>Height of the face, mm on the sheet.</summary>
    public double Height { get; }

    /// <summary>A geometry on the sheet.</summary>
    public Geometry Place(Geometry onPlane) => onPlane is IPuntal ? _scale.Transform(onPlane) : Sound(DouglasPeuckerSimplifier.Simplify(_scale.Transform(onPlane), Tolerance));

    private static Geometry Sound(Geometry geometry) => geometry.IsValid ? geometry : GeometryFixer.Fix(geometry);
}
