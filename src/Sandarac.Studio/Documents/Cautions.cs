namespace Sandarac.Studio.Documents;

/// <summary>The usual cautions for photographs whose making can hurt someone. Common practice, no single source; they defer to local rules.</summary>
public static class Cautions
{
    private static readonly (string[] Lights, string Text)[] All =
    [
        (["UVL", "UVR"], "Ultraviolet: lamps can hurt eyes and skin without being felt. Wear eye protection made for the lamp's wavelengths, cover skin, keep exposures short for people and for the painting, and follow local rules."),
        (["XR"], "X-rays: radiographs are made only by trained and licensed persons in a controlled area, under the local radiation protection rules."),
    ];

    /// <summary>Cautions for these lights, in a fixed order.</summary>
    public static IEnumerable<string> For(IEnumerable<string?> lights)
    {
        var present = lights.ToHashSet();
        return All.Where(c => c.Lights.Any(present.Contains)).Select(c => c.Text);
    }
}
