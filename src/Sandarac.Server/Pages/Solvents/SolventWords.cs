using System.Globalization;
using Sandarac.Materials;
using Sandarac.Materials.Solvents;
using static Sandarac.Server.Pages.Language.PageText;

namespace Sandarac.Server.Pages.Solvents;

/// <summary>Solvents' figures as the pages write them.</summary>
internal static class SolventWords
{
    /// <summary>Kinds of hazard that a blend leaves out unless somebody ticks otherwise.</summary>
    public static readonly string[] UsuallyLeftOut = ["carcinogen", "mutagen", "reproduction"];

    /// <summary>"15.5 / 10.4 / 7.0".</summary>
    public static string Text(HansenParameters h) => Figures("0.0#", h.Dispersion, h.Polar, h.Hydrogen);

    /// <summary>"47 / 32 / 21".</summary>
    public static string Text(TeasFractions t) => Figures("0.#", t.Dispersion, t.Polar, t.Hydrogen);

    /// <summary>Parameters of a mixture, to the tenth that the tables have: columns of them stand under one another.</summary>
    public static string Tenths(HansenParameters h) => Figures("0.0", h.Dispersion, h.Polar, h.Hydrogen);

    /// <summary>Fractions of a mixture, to a tenth.</summary>
    public static string Tenths(TeasFractions t) => Figures("0.0", t.Dispersion, t.Polar, t.Hydrogen);

    /// <summary>"38 to 43", "below 0.1".</summary>
    public static string Text(Interval i) => i.IsBound ? Say("below {0}", Number(i.High, "0.###")) : i.High > i.Low ? Say("{0} to {1}", Number(i.Low, "0.###"), Number(i.High, "0.###")) : Number(i.Low, "0.###");

    /// <summary>A figure to be read.</summary>
    public static string Number(double value, string format) => Decimal(value.ToString(format, CultureInfo.InvariantCulture));

    /// <summary>A figure of three digits that count: "0.0123", "4.56", "789".</summary>
    public static string Three(double value) => Number(value, value switch { >= 100 => "0", >= 10 => "0.0", >= 1 => "0.00", >= 0.1 => "0.000", _ => "0.####" });

    /// <summary>"ethanol 20 + isooctane 80" to be read.</summary>
    public static string Text(Mixture mixture) => string.Join(" + ", mixture.Parts.Select(p => $"{p.Solvent.Name} {Number(100 * p.Fraction, "0.#")}"));

    /// <summary>What a kind of hazard is called.</summary>
    public static string Hazard(string kind) => kind switch
    {
        "flammable" => Say("flammable"),
        "acute toxicity" => Say("acutely toxic"),
        "aspiration" => Say("harmful to the lungs if swallowed"),
        "corrosive" => Say("corrosive"),
        "irritant" => Say("irritant"),
        "sensitiser" => Say("causing allergy"),
        "narcotic" => Say("narcotic"),
        "mutagen" => Say("mutagenic"),
        "carcinogen" => Say("carcinogenic"),
        "reproduction" => Say("harmful to reproduction"),
        "organs" => Say("harmful to organs"),
        "environment" => Say("harmful to the environment"),
        "peroxide former" => Say("forming peroxides"),
        _ => kind,
    };

    /// <summary>Address of a mixture's page.</summary>
    public static string Address(Mixture mixture) => $"/solvents/mixture{QueryString.Create("mixture", mixture.Text)}";

    private static string Figures(string format, params ReadOnlySpan<double> values)
    {
        List<string> texts = [];
        foreach (var value in values) texts.Add(Number(value, format));
        return string.Join(" / ", texts);
    }
}
