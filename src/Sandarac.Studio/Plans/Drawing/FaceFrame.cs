using System.Globalization;
using System.Text;
using System.Xml.Linq;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Plans.Drawing;

/// <summary>What stands about the painted face: its edge, rulers from the left and from the bottom as the trade measures, which way is up, and a bar of a round length.</summary>
internal static class FaceFrame
{
    /// <summary>Room that it needs on each side of the face, mm.</summary>
    public const double Left = 11, Top = 5, Right = 3, Bottom = 14;

    private const double Size = 2.3;

    /// <summary>Least distance of two numbers of a ruler, mm.</summary>
    private const double NumberMm = 13;

    public static IEnumerable<XElement?> Draw(FaceOnSheet face, Painting painting)
    {
        yield return Ink.Rectangle(0, 0, face.Width, face.Height, "none", Ink.Black, 0.35);
        yield return Ink.Path($"M{Ink.Text(face.Width / 2 - 1.2)} -1.2H{Ink.Text(face.Width / 2 + 1.2)}L{Ink.Text(face.Width / 2)} -3.4Z", Ink.Black, 0.1, fill: Ink.Black);
        yield return Ink.Words("top", face.Width / 2 + 2.2, -1.3, Size, fill: Ink.Quiet);
        foreach (var part in Ruler(face.Scale, painting.WidthMm, (at, length) => $"M{Ink.Text(at)} {Ink.Text(face.Height)}v{Ink.Text(length)}", (at, text) => Ink.Words(text, at, face.Height + 4.6, Size, anchor: "middle", fill: Ink.Quiet))) yield return part;
        foreach (var part in Ruler(face.Scale, painting.HeightMm, (at, length) => $"M0 {Ink.Text(face.Height - at)}h{Ink.Text(-length)}", (at, text) => Ink.Words(text, -2.6, face.Height - at + 0.8, Size, anchor: "end", fill: Ink.Quiet))) yield return part;
        var bar = ScaleBar.LengthMm(painting.WidthMm);
        var y = face.Height + 8.6;
        yield return Ink.Rectangle(0, y, bar * face.Scale, 1.2, Ink.Black, Ink.Black, 0.1);
        yield return Ink.Rectangle(bar * face.Scale / 2, y + 0.2, bar * face.Scale / 2 - 0.1, 0.8, Ink.White, Ink.Black, 0.05);
        yield return Ink.Words($"{ScaleBar.Label(bar)}, {Ratio(face.Scale)}; figures in mm from left and from bottom, seen from the front", bar * face.Scale + 2, y + 1.4, Size, fill: Ink.Quiet);
    }

    /// <summary>"1 : 2.4", or "2 : 1" for a miniature.</summary>
    private static string Ratio(double scale) => scale <= 1 ? string.Create(CultureInfo.InvariantCulture, $"1 : {1 / scale:0.##}") : string.Create(CultureInfo.InvariantCulture, $"{scale:0.##} : 1");

    private static IEnumerable<XElement?> Ruler(double scale, double lengthMm, Func<double, double, string> tick, Func<double, string, XElement> number)
    {
        var step = Step(NumberMm / scale);
        var path = new StringBuilder();
        for (var k = 0; k * step / 10 <= lengthMm * (1 + 1e-9); k++) path.Append(tick(k * step / 10 * scale, k % 10 == 0 ? 2 : k % 5 == 0 ? 1.4 : 0.8));
        yield return Ink.Path(path.ToString(), Ink.Quiet, 0.15);
        for (var k = 0; k * step <= lengthMm * (1 + 1e-9); k++) yield return number(k * step * scale, Ink.Text(k * step));
    }

    /// <summary>The least of 1, 2, 5 times a power of ten that is no less than a length.</summary>
    private static double Step(double least)
    {
        var decade = Math.Pow(10, Math.Floor(Math.Log10(least)));
        return (least / decade) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 } * decade;
    }
}
