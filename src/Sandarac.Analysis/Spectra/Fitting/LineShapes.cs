using Sandarac.Analysis.Spectra.Lines;

namespace Sandarac.Analysis.Spectra.Fitting;

/// <summary>Makes the columns of a model.</summary>
internal static class LineShapes
{
    /// <summary>Energy of the silicon line that escapes from the detector, keV.</summary>
    public const double EscapeKev = 1.74;

    /// <summary>Rest energy of the electron, keV.</summary>
    private const double ElectronKev = 510.99895;

    /// <summary>Angles of scattering that instruments have between them, degrees, and how much movement of the electrons widens the line, as a share of its energy. Ours, no source: between these angles the columns overlap.</summary>
    private static readonly double[] ScatterAngles = [75, 90, 105, 120, 135, 150];

    private const double ComptonWidth = 0.012;

    /// <summary>Lengths of tails, keV, between which a detector's lies. Ours, no source.</summary>
    private static readonly double[] TailKev = [0.15, 0.6];

    /// <summary>Distance of the background's knots, keV.</summary>
    private const double KnotKev = 1.5;

    /// <summary>An element's lines, one column for each shell with its escape lines.</summary>
    public static IEnumerable<Component> Shells(string element, ChannelAxis axis) =>
        Visible(element, axis).GroupBy(l => l.Shell).Select(shell => Component.OfLines(element, $"{shell.Key}", [.. Lines(shell, shell), .. Escapes(shell, shell)], axis));

    /// <summary>An element's lines, one column for each group of lines that keep their ratios, and one for the escape lines of a shell.</summary>
    public static IEnumerable<Component> Groups(string element, ChannelAxis axis)
    {
        foreach (var shell in Visible(element, axis).GroupBy(l => l.Shell))
        {
            foreach (var group in shell.GroupBy(l => l.Group)) yield return Component.OfLines(element, group.Key, [.. Lines(group, shell)], axis);
            if (Escapes(shell, shell).ToList() is { Count: > 0 } escapes) yield return Component.OfLines(element, $"{shell.Key} escape", escapes, axis);
        }
    }

    /// <summary>What a tube's anode, or a beam of one energy, shows when the painting scatters it: unchanged lines by group, and those that lost energy to an electron (Compton 1923), by angle.</summary>
    public static IEnumerable<Component> Scattered(string? anode, double? beamKev, ChannelAxis axis)
    {
        var sources = beamKev is { } beam ? [("beam", [("beam", beam, 1.0)])] : anode is null ? [] : Visible(anode, axis).GroupBy(l => l.Group)
            .Select(g => (Group: g.Key, Lines: g.Select(l => (Name: $"{anode} {l.Name}", l.Kev, Counts: l.Relative * l.Absorbed)).ToList()));
        foreach (var (group, lines) in sources)
        {
            yield return Component.OfLines(Component.Tube, $"{group} unchanged", lines, axis);
            foreach (var angle in ScatterAngles)
                yield return Component.OfLines(Component.Tube, FormattableString.Invariant($"{group} Compton {angle}"), [.. lines.Select(l => ($"{l.Name} Compton", Late(l.Kev, angle), l.Counts))], axis, ComptonWidth);
        }
    }

    /// <summary>A column's lines on another axis.</summary>
    public static Component Again(Component lines, ChannelAxis axis) => Component.OfLines(lines.Owner, lines.Part, lines.Lines, axis, lines.Part.Contains(" Compton ", StringComparison.Ordinal) ? ComptonWidth : 0);

    /// <summary>Two quanta at once: the counts folded with themselves (the amount is about twice the share of pulses that pile up).</summary>
    public static Component PiledUp(double[] counts, ChannelAxis axis)
    {
        var (shape, total, shift) = (new double[counts.Length], counts.Sum(), (int)Math.Round(axis.Scale.OffsetKev / axis.Scale.KevPerChannel));
        // The electronics' noise below the first line is no quantum.
        var first = axis.Fitted.From;
        for (var i = first; i < counts.Length; i++)
        {
            var (from, to) = (Math.Max(first, -i - shift), Math.Min(counts.Length, counts.Length - i - shift));
            if (counts[i] > 0 && from < to) Rows.Add(shape.AsSpan(from + i + shift, to - from), counts[i] / total, counts.AsSpan(from));
        }
        return new Component(Component.PileUp, Component.PileUp, 0, shape, []);
    }

    /// <summary>Charge that was not collected whole: what stands above the background, with tails that fall towards lower energies.</summary>
    public static IEnumerable<Component> Tails(double[] counts, double[] background, ChannelAxis axis)
    {
        foreach (var kev in TailKev)
        {
            var (shape, decay) = (new double[counts.Length], Math.Exp(-axis.Scale.KevPerChannel / kev));
            for (var c = counts.Length - 2; c >= 0; c--) shape[c] = decay * (shape[c + 1] + (1 - decay) * Math.Max(0, counts[c + 1] - background[c + 1]));
            yield return new Component(Component.Tail, FormattableString.Invariant($"{kev} keV"), 0, shape, []);
        }
    }

    /// <summary>The background cut into overlapping tents, which add up to it when every amount is 1.</summary>
    public static IEnumerable<Component> Grounds(double[] background, ChannelAxis axis)
    {
        var step = Math.Max(4, KnotKev / axis.Scale.KevPerChannel);
        for (var knot = 0; knot * step < axis.Count + step; knot++)
        {
            var (from, to) = (Math.Max(0, (int)Math.Ceiling((knot - 1) * step)), Math.Min(axis.Count - 1, (int)Math.Floor((knot + 1) * step)));
            if (from > to) yield break;
            yield return new Component(Component.Ground, $"knot {knot}", from, [.. Enumerable.Range(from, to - from + 1).Select(c => background[c] * (1 - Math.Abs(c / step - knot)))], []);
        }
    }

    /// <summary>Lines within what is measured and excited.</summary>
    public static IEnumerable<XrayLine> Visible(string element, ChannelAxis axis) => XrayLine.Of(element).Where(l => l.Kev > axis.FromKev && l.Kev < axis.ToKev && l.EdgeKev < axis.LimitKev);

    private static double Late(double kev, double degrees) => kev / (1 + kev / ElectronKev * (1 - Math.Cos(double.DegreesToRadians(degrees))));

    /// <summary>Counts for an amount of 1: the amount is the counts of the shell's strongest line, those of others follow with the share that silicon absorbs.</summary>
    private static IEnumerable<(string, double, double)> Lines(IEnumerable<XrayLine> lines, IEnumerable<XrayLine> shell)
    {
        var strongest = shell.MaxBy(l => l.Relative)!;
        return lines.Select(l => ($"{l.Element} {l.Name}", l.Kev, l.Relative * l.Absorbed / strongest.Absorbed / strongest.Relative));
    }

    private static IEnumerable<(string, double, double)> Escapes(IEnumerable<XrayLine> lines, IEnumerable<XrayLine> shell) =>
        Lines(lines, shell).Zip(lines, (l, line) => ($"{l.Item1} escape", l.Item2 - EscapeKev, l.Item3 * line.Escape)).Where(l => l.Item3 > 5e-4);
}
