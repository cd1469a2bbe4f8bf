using System.Runtime.Intrinsics;
using Sandarac.Specimen.Layers;

namespace Sandarac.Specimen.Lighting;

/// <summary>What the finished painting sends to the camera in each light.</summary>
internal static class Lights
{
    /// <summary>The two lamps of a copying stand, for visible light, luminescence and infrared.</summary>
    public static readonly Lamp Left = new(270, 45), Right = new(90, 45);

    /// <summary>Share of visible light that leaks from the ultraviolet lamps and the room, R, G, B: what a flawed filter lets
    /// through.</summary>
    public static readonly Vector128<float> Leak = Vector128.Create(0.020f, 0.018f, 0.075f, 0);

    public static void Visible(Canvas canvas, (Lamp Left, Lamp Right) lamps, PlaneImage image, ParallelOptions options)
    {
        var (left, right) = (new Relief(canvas.Grid, canvas.Height, lamps.Left), new Relief(canvas.Grid, canvas.Height, lamps.Right));
        image.Fill(options, (x, y) =>
        {
            var (a, b) = (left.At(x, y), right.At(x, y));
            return canvas.Reflectance[y * canvas.Grid.Width + x] * (0.08f + 0.46f * (a.Diffuse + b.Diffuse))
                + Vector128.Create(0.5f * (a.Mirrored + b.Mirrored));
        });
    }

    public static void Raking(Canvas canvas, Lamp lamp, PlaneImage image, ParallelOptions options)
    {
        var relief = new Relief(canvas.Grid, canvas.Height, lamp);
        image.Fill(options, (x, y) =>
        {
            var (diffuse, mirrored) = relief.At(x, y);
            return canvas.Reflectance[y * canvas.Grid.Width + x] * (0.03f + 0.97f * diffuse) + Vector128.Create(mirrored);
        });
    }

    public static void Luminescence(Canvas canvas, PlaneImage image, ParallelOptions options) => image.Fill(options, (x, y) =>
    {
        var i = y * canvas.Grid.Width + x;
        return canvas.Glow[i] + canvas.Reflectance[i] * Leak;
    });

    public static void Infrared(Canvas canvas, PlaneImage image, ParallelOptions options)
    {
        var (left, right) = (new Relief(canvas.Grid, canvas.Height, Left), new Relief(canvas.Grid, canvas.Height, Right));
        image.Fill(options, (x, y) => Vector128.CreateScalar(
            canvas.Reflectance[y * canvas.Grid.Width + x][3] * (0.10f + 0.45f * (left.At(x, y).Diffuse + right.At(x, y).Diffuse))));
    }

    /// <summary>Film behind the panel, developed and scanned: its density rises with the exposure that Beer-Lambert's law leaves (film
    /// exposed without a screen
    /// is about linear in density at low densities; textbook knowledge, from memory), and the scanner sees ten to the minus
    /// density.</summary>
    public static void Radiograph(Canvas canvas, PlaneImage image, ParallelOptions options) =>
        image.Fill(options, (x, y) => Vector128.CreateScalar(Film(MathF.Exp(-canvas.Glow[y * canvas.Grid.Width + x][3]))));

    /// <summary>What the scanner sees of film that got this share of the unhindered exposure, scaled so that unexposed film nearly fills
    /// the scale.</summary>
    public static float Film(float exposure) => MathF.Pow(10, -2.1f * exposure);
}
