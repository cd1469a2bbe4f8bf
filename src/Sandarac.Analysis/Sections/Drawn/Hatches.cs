namespace Sandarac.Analysis.Sections.Drawn;

/// <summary>Hatches by kind of layer: told apart by their marks in grey print, no colour needed.</summary>
internal static class Hatches
{
    private const string Ink = "#333333";

    private static readonly (LayerKind Kind, string Label, int Width, int Height, string Marks)[] All =
    [
        (LayerKind.Ground, "ground", 18, 14, Dot(4, 4, 1.7) + Dot(13, 10, 1.1) + Dot(10, 3, 0.7) + Dot(3, 11, 0.8)),
        (LayerKind.Priming, "priming", 14, 8, Path("M1 2H8M9 6H13M0 6H2")),
        (LayerKind.Underdrawing, "underdrawing", 8, 8, $"<rect width=\"8\" height=\"8\" fill=\"#555555\"/><path d=\"M0 8L8 0\" stroke=\"#ffffff\" stroke-width=\"0.8\"/>"),
        (LayerKind.Paint, "paint", 9, 9, Path("M-1 10L10 -1M-1 1L1 -1M8 10L10 8")),
        (LayerKind.Metal, "metal leaf", 10, 6, $"<rect width=\"10\" height=\"6\" fill=\"#bbbbbb\"/><path d=\"M0 1.5H10M0 4.5H10\" stroke=\"{Ink}\" stroke-width=\"1.2\"/>"),
        (LayerKind.Varnish, "varnish", 16, 12, Path("M0 6Q4 2 8 6T16 6")),
        (LayerKind.Dirt, "dirt", 5, 5, Dot(1.2, 1.2, 0.9) + Dot(3.8, 3.6, 0.9)),
        (LayerKind.Retouching, "retouching", 9, 9, Path("M0 0L9 9M9 0L0 9")),
        (LayerKind.Unknown, "kind not said", 12, 10, $"<path d=\"M0 5H12\" stroke=\"{Ink}\" stroke-width=\"0.5\" stroke-dasharray=\"1.5 3.5\" fill=\"none\"/>"),
    ];

    public static string Label(LayerKind kind) => All.First(h => h.Kind == kind).Label;

    public static string Id(LayerKind kind) => $"hatch-{Label(kind).Replace(' ', '-')}";

    public static string Definitions(IEnumerable<LayerKind> kinds) => string.Concat(All.Where(h => kinds.Contains(h.Kind)).Select(h =>
        $"<pattern id=\"{Id(h.Kind)}\" width=\"{h.Width}\" height=\"{h.Height}\" patternUnits=\"userSpaceOnUse\"><rect width=\"{h.Width}\" height=\"{h.Height}\" fill=\"#ffffff\"/>{h.Marks}</pattern>"));

    private static string Dot(double x, double y, double r) => FormattableString.Invariant($"<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\" fill=\"{Ink}\"/>");

    private static string Path(string d) => $"<path d=\"{d}\" stroke=\"{Ink}\" stroke-width=\"0.9\" fill=\"none\"/>";
}
