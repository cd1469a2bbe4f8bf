namespace Sandarac.Materials.Tables;

/// <summary>Colour words as the tables and the naming of a zone's colour use them.</summary>
internal static class ColourWords
{
    /// <summary>Words that lie beside one another: a boundary between two is a matter of the eye.</summary>
    private static readonly string[][] Beside =
    [
        ["red", "orange"], ["orange", "yellow"], ["yellow", "green"], ["green", "blue"], ["blue", "violet"], ["violet", "magenta"], ["magenta", "red"], ["pink", "red"], ["pink", "magenta"], ["pink", "white"],
        ["brown", "orange"], ["brown", "red"], ["brown", "yellow"], ["brown", "black"], ["white", "grey"], ["grey", "black"], ["white", "yellow"],
    ];

    private static readonly Dictionary<string, string> Words = new()
    {
        ["red"] = "red", ["orange"] = "orange", ["yellow"] = "yellow", ["lemon"] = "yellow", ["green"] = "green", ["olive"] = "green", ["blue"] = "blue", ["bluish"] = "blue", ["violet"] = "violet", ["purple"] = "violet",
        ["magenta"] = "magenta", ["pink"] = "pink", ["brown"] = "brown", ["white"] = "white", ["whitish"] = "white", ["pale"] = "white", ["milky"] = "white", ["cream"] = "white", ["grey"] = "grey", ["black"] = "black",
    };

    /// <summary>The colours that a text names: "greenish-yellow to brown" gives green, yellow and brown.</summary>
    public static IReadOnlySet<string> In(string text) => Words.Where(w => text.Contains(w.Key, StringComparison.OrdinalIgnoreCase)).Select(w => w.Value).ToHashSet();

    /// <summary>2 when the sets share a colour, 1 when colours of theirs lie beside one another, 0 otherwise.</summary>
    public static int Agreement(IReadOnlySet<string> a, IReadOnlySet<string> b) =>
        a.Overlaps(b) ? 2 : Beside.Any(p => a.Contains(p[0]) && b.Contains(p[1]) || a.Contains(p[1]) && b.Contains(p[0])) ? 1 : 0;
}
