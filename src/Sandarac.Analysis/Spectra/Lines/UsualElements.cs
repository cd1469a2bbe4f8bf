namespace Sandarac.Analysis.Spectra.Lines;

/// <summary>Which elements are looked for first. The choice is ours: those of pigments, grounds, driers, leaf and their usual companions, and argon of the air.</summary>
internal static class UsualElements
{
    /// <summary>Elements that paintings usually hold, or the air before them.</summary>
    public static IReadOnlySet<string> Usual { get; } = Set("Na Mg Al Si P S Cl Ar K Ca Ti Cr Mn Fe Co Ni Cu Zn As Se Br Sr Ag Cd Sn Sb Ba Au Hg Pb Bi");

    /// <summary>Elements that are looked for only where a peak is left over.</summary>
    public static IReadOnlySet<string> Rare { get; } = Set("V Ga Ge Rb Y Zr Nb Mo In Te I Cs La Ce Nd Pr Sm Gd W Pt Th U");

    /// <summary>Usual metals of tubes' anodes.</summary>
    public static IReadOnlyList<string> Anodes { get; } = ["Rh", "Ag", "Pd", "Mo", "W", "Au", "Pt", "Ta", "Cr", "Cu", "Co", "Fe", "Ti"];

    private static HashSet<string> Set(string symbols) => [.. symbols.Split(' ')];
}
