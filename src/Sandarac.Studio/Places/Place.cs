using System.Globalization;

namespace Sandarac.Studio;

/// <summary>How places are shown to people: the one place in the studio where the stored plane (origin upper left, y down) becomes the trade's
/// "from left, from bottom".</summary>
public static class Place
{
    /// <summary>mm from the bottom edge of a place stored as mm from the top edge.</summary>
    public static double FromBottom(double y, double heightMm) => heightMm - y;

    /// <summary>"123.4 mm from left, 88.0 mm from bottom".</summary>
    public static string Text(double x, double y, double heightMm) =>
        string.Create(CultureInfo.InvariantCulture, $"{x:0.0} mm from left, {FromBottom(y, heightMm):0.0} mm from bottom");
}
