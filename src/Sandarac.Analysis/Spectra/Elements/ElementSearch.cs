using Sandarac.Analysis.Spectra.Fitting;
using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Spectra.Elements;

/// <summary>Which elements a spectrum's lines need: all usual ones at first, then without those whose absence costs nothing, then with rarer ones where a peak is left over.</summary>
internal sealed class ElementSearch
{
    /// <summary>Rarer elements are added one by one, at most so many.</summary>
    private const int MostRare = 5;

    /// <summary>Peaks that are left over and looked at each time.</summary>
    private const int MostLeft = 3;

    /// <summary>Below this share of the exciting energy, a shell's edge is so low that its lines must be seen when the element is there; higher ones may be too weak. Ours, no source.</summary>
    private const double MustShow = 0.6;

    /// <summary>How far a line may lie from a peak that it explains, full widths at half maximum.</summary>
    private const double Near = 0.6;

    /// <summary>Lines with at least this share of their shell's strongest may be taken for another element's.</summary>
    private const double StrongLine = 0.3;

    private readonly double[] _counts;
    private readonly IReadOnlyList<Component> _fixed;
    private readonly Dictionary<string, Component[]> _groups = [];
    private readonly double _least;
    private readonly string? _anode;
    private readonly double? _beamKev;

    private ElementSearch(double[] counts, double[] background, ChannelAxis axis, string? anode, double? beamKev, double least)
    {
        (_counts, Axis, _least, _anode, _beamKev) = (counts, axis, least * least, anode, beamKev);
        _fixed = [.. LineShapes.Grounds(background, axis), LineShapes.PiledUp(counts, axis), .. LineShapes.Tails(counts, background, axis), .. LineShapes.Scattered(anode, beamKev, axis)];
    }

    /// <summary>The channels.</summary>
    public ChannelAxis Axis { get; }

    /// <summary>The model with the elements that are needed.</summary>
    public LineModel Model { get; private set; } = null!;

    /// <summary>Its amounts.</summary>
    public NonNegative Fit { get; private set; } = null!;

    /// <summary>The elements that are needed.</summary>
    public IReadOnlyList<string> Elements { get; private set; } = [];

    /// <summary>Searches.</summary>
    public static ElementSearch Run(double[] counts, double[] background, ChannelAxis axis, string? anode, double? beamKev, double least)
    {
        var search = new ElementSearch(counts, background, axis, anode, beamKev, least);
        search.Elements = [.. UsualElements.Usual.Where(e => e != anode && LineShapes.Visible(e, axis).Any())];
        search.Roughly();
        search.Reduce();
        for (var added = 0; added < MostRare && search.AddRare(); added++) search.Reduce();
        search.Exchange();
        return search;
    }

    /// <summary>The model of other elements, with the weights and amounts of this one.</summary>
    /// <param name="elements">The elements.</param>
    /// <param name="rounds">How often weights and ties are made anew: once is enough to compare.</param>
    public (LineModel Model, NonNegative Fit) With(IEnumerable<string> elements, int rounds = 3) =>
        LineModel.Fit([.. _fixed, .. elements.SelectMany(Groups)], _counts, Axis, rounds, c => Amount(c) is > 0 and var a ? a : Peak(c));

    /// <summary>An element's columns, made once: it comes and goes often.</summary>
    private Component[] Groups(string element) => _groups.TryGetValue(element, out var made) ? made : _groups[element] = [.. LineShapes.Groups(element, Axis)];

    /// <summary>Sum of weighted squares of what a model leaves, by this model's weights.</summary>
    public double Squares(LineModel model, NonNegative fit)
    {
        var (sum, (from, to)) = (model.Sum(fit.Amounts, _ => true), Axis.Fitted);
        return Enumerable.Range(from, to - from + 1).Sum(c => Math.Pow(_counts[c] - sum[c], 2) / Model.Variance[c]);
    }

    /// <summary>The same on other channels, with the elements and the weights of this one: how well another width or scale would do.</summary>
    public double Misfit(ChannelAxis axis)
    {
        var (model, fit) = LineModel.Fit([.. Model.Components.Where(c => c.Owner is Component.Ground or Component.PileUp or Component.Tail), .. Elements.SelectMany(e => LineShapes.Groups(e, axis)), .. LineShapes.Scattered(_anode, _beamKev, axis)], _counts, axis, 2, Amount);
        return Squares(model, fit);
    }

    /// <summary>Whole shells: enough to see which elements have nothing at all.</summary>
    private void Roughly()
    {
        (Model, Fit) = LineModel.Fit([.. _fixed, .. Elements.SelectMany(e => LineShapes.Shells(e, Axis))], _counts, Axis, 2);
        Elements = [.. Elements.Where(e => Columns(e).Any(c => Fit.Amounts[c] > 0))];
        (Model, Fit) = With(Elements);
    }

    /// <summary>Lets go of the element that costs least, until each costs more than the least significance; then weights and ties are made anew.</summary>
    private void Reduce()
    {
        var removed = true;
        while (removed)
        {
            HashSet<int> columns = [.. Enumerable.Range(0, Model.Components.Count)];
            // What was reckoned before another left is mostly too low, seldom too high: only the cheapest is reckoned again.
            var left = Elements.ToDictionary(e => e, e => Cost(e, columns));
            removed = false;
            while (left.Count > 0)
            {
                var cheapest = left.MinBy(e => e.Value).Key;
                left[cheapest] = Cost(cheapest, columns);
                if (left[cheapest] > left.Values.Min()) continue;
                if (left[cheapest] >= _least) break;
                columns.ExceptWith(Columns(cheapest));
                left.Remove(cheapest);
                Fit = Model.Solve(columns, Fit.Positive);
                removed = true;
            }
            Elements = [.. left.Keys];
            if (removed) (Model, Fit) = With(Elements);
        }
    }

    /// <summary>By how much the sum of squares rises without an element; nothing where a shell that must show does not.</summary>
    private double Cost(string element, HashSet<int> columns)
    {
        var own = Columns(element).ToList();
        var must = MustBeSeen(element) is { } shell ? own.Where(c => Model.Components[c].Part[0] == shell).ToList() : own;
        if (must.All(c => Fit.Amounts[c] <= 0)) return 0;
        double Without(List<int> gone) => Model.Solve([.. columns.Except(gone)], Fit.Positive.Except(gone)).Value - Fit.Value;
        return must.Count < own.Count && Without(must) is var alone && alone < _least ? alone : Without(own);
    }

    /// <summary>The innermost shell that is excited so well that it shows wherever the element is.</summary>
    public char? MustBeSeen(string element)
    {
        foreach (var shell in "KL")
            if (LineShapes.Visible(element, Axis).Where(l => l.Shell == shell).ToList() is { Count: > 0 } lines && lines.Max(l => l.EdgeKev) < MustShow * Axis.LimitKev) return shell;
        return null;
    }

    /// <summary>Adds the element that explains what is left over best, when its strongest line stands by itself.</summary>
    private bool AddRare()
    {
        var (before, (model, fit)) = (Elements, (Model, Fit));
        var sum = model.Sum(fit.Amounts, _ => true);
        var (from, to) = Axis.Fitted;
        double[] left = [.. _counts.Select((c, i) => i < from || i > to ? 0 : c - sum[i])];
        var best = PeakSearch.Find(left, model.Variance, Axis.Sigma, Math.Sqrt(_least)).OrderByDescending(p => p.Significance).Take(MostLeft).SelectMany(p => Explaining(p.Channel)).Distinct()
            .Select(e => (Element: e, Squares: With([.. before, e], 1) is var with ? Squares(with.Model, with.Fit) : 0)).OrderBy(e => e.Squares).FirstOrDefault();
        if (best.Element is null || Squares(model, fit) - best.Squares < _least) return false;
        Elements = [.. before, best.Element];
        (Model, Fit) = With(Elements);
        if (new OwnLines(this).Of(best.Element, Math.Sqrt(_least)) is [{ IsOwn: true }, ..]) return true;
        (Elements, Model, Fit) = (before, model, fit);
        return false;
    }

    /// <summary>Puts another element in the place of one with a single line, where that explains more.</summary>
    private void Exchange()
    {
        foreach (var element in Elements.Where(e => new OwnLines(this).Of(e, Math.Sqrt(_least)).Count(l => l.IsOwn) < 2).ToList())
        {
            var others = Elements.Where(e => e != element).ToList();
            var best = Beside(element).Select(e => (Element: e, With: With([.. others, e], 1))).OrderBy(e => Squares(e.With.Model, e.With.Fit)).FirstOrDefault();
            if (best.Element is null || Squares(Model, Fit) - Squares(best.With.Model, best.With.Fit) < _least || !Shows(best.Element, best.With.Model, best.With.Fit)) continue;
            Elements = [.. others, best.Element];
            (Model, Fit) = With(Elements);
        }
    }

    /// <summary>Whether in a model of an element's the shell that must show does, with three standard deviations.</summary>
    public bool Shows(string element, LineModel model, NonNegative fit) => MustBeSeen(element) is not { } shell
        || fit.Positive.Any(p => model.Components[p].Owner == element && model.Components[p].Part[0] == shell && fit.Amounts[p] > 3 * model.Sigma(p, [.. fit.Positive.Where(q => q != p)]));

    /// <summary>Elements that are not needed and have a strong line within a peak's width of one of an element's.</summary>
    public IEnumerable<string> Beside(string element)
    {
        var strongest = LineShapes.Visible(element, Axis).GroupBy(l => l.Shell).Select(s => s.MaxBy(l => l.Relative)!.Kev).ToList();
        return UsualElements.Usual.Concat(UsualElements.Rare).Where(e => e != _anode && !Elements.Contains(e) && LineShapes.Visible(e, Axis).Where(l => l.Relative > StrongLine && l.Shell != 'M')
            .Any(l => strongest.Any(kev => Math.Abs(kev - l.Kev) < Axis.Resolution.FwhmEv(kev) / 1000)));
    }

    private IEnumerable<string> Explaining(int channel)
    {
        var kev = Axis.Scale.At(channel);
        return UsualElements.Rare.Concat(UsualElements.Usual).Except(Elements).Where(e => e != _anode)
            .Where(e => LineShapes.Visible(e, Axis).Where(l => l.Shell != 'M').GroupBy(l => l.Shell).Any(s => Math.Abs(s.MaxBy(l => l.Relative)!.Kev - kev) < Near * Axis.Resolution.FwhmEv(kev) / 1000));
    }

    private IEnumerable<int> Columns(string element) => Enumerable.Range(0, Model.Components.Count).Where(c => Model.Components[c].Owner == element);

    /// <summary>An amount of the present model for a column of another: that of its group, else of its shell.</summary>
    private double Amount(Component component)
    {
        var same = Enumerable.Range(0, Model.Components.Count).Where(c => Model.Components[c].Owner == component.Owner && Model.Components[c].Part[0] == component.Part[0]).ToList();
        return same.Where(c => Model.Components[c].Part == component.Part).Concat(same).Select(c => Fit.Amounts[c]).FirstOrDefault();
    }

    /// <summary>For a column that is new: as much as there is at its strongest line.</summary>
    private double Peak(Component component)
    {
        if (!component.IsElement) return component.Owner == Component.Ground ? 1 : 0;
        var top = component.From + Array.IndexOf(component.Shape, component.Shape.Max());
        return component.At(top) > 0 ? Math.Max(0, _counts[top] - Model.Sum(Fit.Amounts, c => c.Owner == Component.Ground)[top]) / component.At(top) : 0;
    }
}
