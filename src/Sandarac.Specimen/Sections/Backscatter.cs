namespace Sandarac.Specimen.Sections;

/// <summary>
/// Back-scattered electrons of the specimen's materials, by their mean atomic number weighted by mass: lead and mercury are bright, what is organic is dark.
/// Mean atomic numbers are rounded from formulas by heart, the medium's share is invented.
/// </summary>
internal static class Backscatter
{
    private const double Organic = 6.5;

    /// <summary>Medium's share of what one sees between grains.</summary>
    private const float Medium = 0.5f;

    private static readonly Dictionary<string, double> MeanAtomicNumber = new()
    {
        ["lead white"] = 73, ["lead-tin yellow"] = 70, ["vermilion"] = 71, ["chalk in glue"] = 12.6, ["yellow ochre"] = 18, ["red earth"] = 19, ["umber"] = 19.5,
        ["bone black"] = 13, ["smalt"] = 12.5, ["madder lake"] = 8.5, ["retouching, modern"] = 16.5,
    };

    /// <summary>What the embedding resin, varnish and anything else organic sends back.</summary>
    public static float OfMedium { get; } = Coefficient(Organic);

    /// <summary>A body's own grains.</summary>
    public static float Of(string body) => MeanAtomicNumber.TryGetValue(body, out var z) ? Coefficient(z) : OfMedium;

    /// <summary>Medium with the fines of a recipe in it.</summary>
    public static float Between(IReadOnlyList<(string Body, float Share)> recipe) => Medium * OfMedium + (1 - Medium) * recipe.Sum(r => r.Share * Of(r.Body));

    /// <summary>Share of 20 keV electrons sent back at normal incidence: Reuter's fit (6th International Conference on X-ray Optics and Microanalysis (1972) 121, from memory).</summary>
    private static float Coefficient(double z) => (float)(-0.0254 + 0.016 * z - 1.86e-4 * z * z + 8.3e-7 * z * z * z);
}
