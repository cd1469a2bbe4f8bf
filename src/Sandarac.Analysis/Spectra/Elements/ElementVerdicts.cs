using Sandarac.Analysis.Spectra.Fitting;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Spectra.Elements;

/// <summary>Says of each element how sure it is and why.</summary>
internal sealed class ElementVerdicts(ElementSearch search, SpectrumSettings settings)
{
    /// <summary>Two explanations that differ by less in the sum of weighted squares are equally good: three standard deviations.</summary>
    private const double EquallyGood = 9;

    /// <summary>A line is missing when less than this share of it is there, though it should be so significant.</summary>
    private const double Missing = 0.4, Visible = 8, Notable = 0.1, MostAbsorbedKev = 3;

    /// <summary>Another element could be hidden when so large a share of the line over it could be its own, and that is as much as this share of the strongest element's counts.</summary>
    private const double Hidden = 0.1, HiddenOfAll = 0.005;

    /// <summary>Argon, of which air has 0.9 %, and how near a line that stands alone may come to its Ka: a third of a detector's width there, ours.</summary>
    private const double TooNearKev = 0.05;

    private static readonly double ArgonKev = XrayLine.Energy("Ar Ka")!.Value;

    private readonly OwnLines _lines = new(search);

    /// <summary>All elements that are needed, and usual ones that could be hidden; the surest first, then by counts.</summary>
    public IReadOnlyList<ElementFound> All()
    {
        var found = search.Elements.Select(Verdict).OfType<ElementFound>().ToList();
        var hidden = UsualElements.Usual.Where(e => e != settings.Anode && found.TrueForAll(f => f.Element != e)).Select(Hiding).OfType<ElementFound>();
        return [.. found.Concat(hidden).OrderBy(e => e.Confidence).ThenByDescending(e => e.Counts)];
    }

    private ElementFound? Verdict(string element)
    {
        var lines = _lines.Of(element, settings.LeastSignificance);
        // Where an inner shell must show, an outer one's lines prove nothing: too many elements have some there.
        var own = lines.Where(l => l.IsOwn && (search.MustBeSeen(element) ?? l.Name[0]) == l.Name[0]).ToList();
        // What the fit took for want of something better is no element: it must at least lie under lines that are there.
        if (own.Count == 0 && (!UsualElements.Usual.Contains(element) || lines is not [{ Under: { } over }, ..] || over == PeakNames.Tails)) return null;
        var (counts, uncertainty) = Amount(element);
        ElementFound Found(ElementConfidence confidence, string reason) => new(element, confidence, counts, uncertainty, reason, lines);
        if (own.Count < 2 && Alternatives(element) is { Count: > 0 } others)
            return Found(ElementConfidence.CannotBeTold, $"{string.Join(" or ", others)} would explain the same peak{(others.Count == 1 ? "" : "s")} equally well; no other line decides.");
        if (own.Count == 0) return Found(ElementConfidence.CannotBeTold, NoneOfItsOwn(lines));
        if (own is [var only] && element != "Ar" && Math.Abs(only.Kev - ArgonKev) < TooNearKev)
            return Found(ElementConfidence.CannotBeTold, FormattableString.Invariant($"Its only line, {only.Name} at {only.Kev:0.00} keV, lies too near argon's at {ArgonKev:0.00} keV: the air in the beam's way has argon."));
        var seen = string.Join(", ", own.Take(3).Select(l => FormattableString.Invariant($"{l.Name} at {l.Kev:0.00} keV ({l.Significance:0} standard deviations)")));
        var stands = own.Count == 1 ? "stands by itself" : "stand by themselves";
        if (lines.FirstOrDefault(l => IsMissing(l, lines[0])) is { } missing)
            return Found(ElementConfidence.Possible, $"{seen} {stands}, but {missing.Name}, which should be seen as well, is not there in proportion.");
        if (!UsualElements.Usual.Contains(element)) return Found(ElementConfidence.Possible, $"{seen} {stands}; the element is seldom met in paint, so look for another cause (a support, a filter, the tube) first.");
        if (settings.Anode is null && settings.BeamKev is null && UsualElements.Anodes.Take(7).Contains(element)) return Found(ElementConfidence.Possible, $"{seen} {stands}, but the tube's anode is not known and may be of this metal.");
        return own.GroupBy(l => l.Name[0]).Any(shell => shell.Count() >= 2) ? Found(ElementConfidence.Certain, $"{seen} {stands}, in proportion.") : Found(ElementConfidence.Probable, $"{seen} {stands}; {Rest(lines)}");
    }

    /// <summary>Whether a line that must be seen is not. Only lines of some strength, in which air and the painting's surface take little: below, absence says nothing.</summary>
    private static bool IsMissing(ElementLine line, ElementLine strongest) =>
        line.Under is null && line.Kev > MostAbsorbedKev && line.Expected > Notable * strongest.Expected && line.Counts < Missing * line.Expected && line.Expected > Visible * line.Sigma;

    private static string Rest(IReadOnlyList<ElementLine> lines) => lines.FirstOrDefault(l => !l.IsOwn && l.Under is not null) is { } hidden ? $"{hidden.Name} lies under {hidden.Under}." : "further lines are too weak to be seen.";

    private static string NoneOfItsOwn(IReadOnlyList<ElementLine> lines) => lines.Count == 0 ? "No line of it stands by itself."
        : string.Join("; ", lines.Take(3).Select(l => l.Under is { } u ? $"{l.Name} lies under {u}" : FormattableString.Invariant($"{l.Name} is seen with {l.Significance:0.0} standard deviations only"))) + ". Its strength alone does not decide.";

    /// <summary>Elements that are not needed, but would do as well in this one's place.</summary>
    private List<string> Alternatives(string element)
    {
        var now = search.Squares(search.Model, search.Fit);
        var without = search.Elements.Where(e => e != element).ToList();
        return [.. search.Beside(element).Where(e => UsualElements.Usual.Contains(e)).Where(e => search.With([.. without, e]) is var (model, fit) && search.Squares(model, fit) - now < EquallyGood && search.Shows(e, model, fit))];
    }

    /// <summary>A usual element that is not needed: whether a notable share of a strong line could be its own.</summary>
    private ElementFound? Hiding(string element)
    {
        if (LineShapes.Shells(element, search.Axis).MinBy(s => "KLM".IndexOf(s.Part[0], StringComparison.Ordinal)) is not { } shell) return null;
        var (model, fit) = LineModel.Fit([.. search.Model.Components, shell], search.Model.Counts, search.Axis, 1, c => ReferenceEquals(c, shell) ? 0 : search.Fit.Amounts[IndexOf(c)]);
        var column = model.Components.Count - 1;
        var most = fit.Amounts[column] + 3 * model.Sigma(column, [.. fit.Positive.Where(p => p != column)]);
        var main = LineShapes.Visible(element, search.Axis).Where(l => l.Shell == shell.Part[0]).MaxBy(l => l.Relative)!;
        var at = (int)Math.Round(search.Axis.Scale.Channel(main.Kev));
        var over = search.Model.Sum(search.Fit.Amounts, c => c.Owner != Component.Ground)[at];
        var noise = Math.Sqrt(search.Model.Variance[at]);
        if (over < settings.LeastSignificance * noise || most * shell.At(at) < Hidden * over || most < HiddenOfAll * Strongest()) return null;
        return _lines.Others(element, main.Kev) is not { } under ? null
            : new ElementFound(element, ElementConfidence.CannotBeTold, 0, most, FormattableString.Invariant($"{main.Name} at {main.Kev:0.00} keV lies under {under}, and no other line of it decides: up to {100 * Math.Min(1, most * shell.At(at) / over):0} % of that peak could be its own."), []);
    }

    private double Strongest() => Enumerable.Range(0, search.Model.Components.Count).Where(i => search.Model.Components[i].IsElement).Select(i => search.Fit.Amounts[i]).DefaultIfEmpty(0).Max();

    private int IndexOf(Component component)
    {
        for (var i = 0; i < search.Model.Components.Count; i++) if (ReferenceEquals(search.Model.Components[i], component)) return i;
        return -1;
    }

    private (double Counts, double Uncertainty) Amount(string element)
    {
        var best = Enumerable.Range(0, search.Model.Components.Count).Where(i => search.Model.Components[i].Owner == element && !search.Model.Components[i].Part.Contains("escape", StringComparison.Ordinal)).MaxBy(i => search.Fit.Amounts[i]);
        return (search.Fit.Amounts[best], 1.96 * search.Model.Sigma(best, [.. search.Fit.Positive.Where(p => p != best)]));
    }
}
