using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Teaching;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Jobs;

namespace Sandarac.Studio;

/// <summary>What a person wants to see of what her marks teach.</summary>
/// <param name="PaintingId">The painting.</param>
/// <param name="Marks">The marks as GeoJSON, mm on the plane.</param>
/// <param name="Layers">Photographs that lie on the plane.</param>
/// <param name="View">The part that is looked at, mm.</param>
/// <param name="MmPerPixel">Size of a pixel of the screen on the plane.</param>
/// <param name="StrokeMm">Width of a stroke.</param>
public sealed record TeachingRequest(Guid PaintingId, string Marks, IReadOnlyList<Guid> Layers, Box View, double MmPerPixel, double StrokeMm);

/// <summary>What marks teach, in the part that is looked at.</summary>
/// <param name="View">The part in fact: whole pixels, cut off where the layers end.</param>
/// <param name="MmPerPixel">Size of its pixels: that of the layers' smaller copy that is nearest to what was asked for.</param>
/// <param name="Taught">What was learnt; null when there are too few marks to learn from.</param>
public sealed record TaughtPart(Box View, double MmPerPixel, TaughtView? Taught);

/// <summary>Shows what marks teach while they are being made, on smaller copies of the layers; the run of the reading is what is kept. Stores nothing.</summary>
public sealed class TeachingDesk(OpenStudio studio)
{
    /// <summary>More pixels than a screen has.</summary>
    private const int MostPixels = 4_000_000;

    /// <summary>Learns and judges.</summary>
    /// <exception cref="InputProblem">Unknown painting or photographs, one that is not on the plane, marks that are none, a stroke of a width that the reading does not take, a view that is too large or beside the layers.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public TaughtPart View(TeachingRequest request, CancellationToken cancellation)
    {
        var marks = Marks.Read(request.Marks);
        if (!(request.MmPerPixel > 0)) throw new InputProblem("view", "mmPerPixel", "The size of a pixel is not a length.", "Give it in mm, greater than 0.");
        var stroke = MarkSheets.StrokeWidth(request.StrokeMm);
        var declaration = new TaughtZonesReading().Declaration;
        using var db = studio.CreateDb();
        using var inputs = InputSet.Open(studio, db, declaration, request.PaintingId, new Dictionary<string, IReadOnlyList<Guid>> { ["layers"] = request.Layers });
        InputCheck.Check(declaration, inputs.Images);
        var images = inputs.Images["layers"];
        if (images[0].Scale is not { } scale) throw new InputProblem("no-scale", images[0].Name, $"{images[0].Name} has no scale.", "Give the painting's height and width.");
        var level = LevelFor(images[0], scale.MmPerPixel, request.MmPerPixel);
        var layers = LayersAt(images, level, scale.MmPerPixel);
        var view = PartOf(layers, request.View);
        return new TaughtPart(new Box(view.Left * layers.MmPerPixel, view.Top * layers.MmPerPixel, view.Width * layers.MmPerPixel, view.Height * layers.MmPerPixel), layers.MmPerPixel,
            TaughtView.Of(layers, marks, stroke, view, cancellation));
    }

    private int LevelFor(InputImage image, double mmPerPixel, double wanted)
    {
        var levels = studio.Pyramids.Read(image.Sha256, p => p.Levels.Count);
        return Math.Clamp((int)Math.Round(Math.Log2(wanted / mmPerPixel)), 0, levels - 1);
    }

    private TaughtLayers LayersAt(IReadOnlyList<InputImage> images, int level, double mmPerPixel)
    {
        var size = studio.Pyramids.Read(images[0].Sha256, p => p.Levels[level]);
        return new TaughtLayers(size.Width, size.Height, mmPerPixel * Math.Pow(2, level), [.. images.Select(i => new TaughtLayer(i.Name, i.Image.Facts,
            (left, top, width, height) => studio.Pyramids.Read(i.Sha256, p => p.ReadWindow(level, left, top, width, height))))]);
    }

    private static (int Left, int Top, int Width, int Height) PartOf(TaughtLayers layers, Box view)
    {
        var mm = layers.MmPerPixel;
        var (left, top) = (Math.Clamp(Math.Floor(view.Left / mm), 0, layers.Width), Math.Clamp(Math.Floor(view.Top / mm), 0, layers.Height));
        var (width, height) = (Math.Clamp(Math.Ceiling(view.Right / mm), 0, layers.Width) - left, Math.Clamp(Math.Ceiling(view.Bottom / mm), 0, layers.Height) - top);
        if (!(width * height <= MostPixels)) throw new InputProblem("view", "view", "The view has more pixels than a screen.", "Ask for a smaller part, or for larger pixels.");
        if (!(width >= 1 && height >= 1)) throw new InputProblem("view", "view", "The view lies beside the layers.", "Give left, top, right and bottom in mm on the plane.");
        return ((int)left, (int)top, (int)width, (int)height);
    }
}
