namespace Sandarac.Analysis.Rings.Dating;

/// <summary>How far a date is borne out.</summary>
public enum DatingStrength
{
    /// <summary>No reference proposes a position.</summary>
    NoDate,

    /// <summary>References propose different positions: no date.</summary>
    Contradicted,

    /// <summary>One reference alone proposes it.</summary>
    OneReference,

    /// <summary>Two references or more propose the same, and none another.</summary>
    Agreed,
}

/// <summary>A sample against several references.</summary>
/// <param name="Sample">The sample; its own dates did not count.</param>
/// <param name="Settings">How it was compared.</param>
/// <param name="Verdicts">What each reference says, in the order given.</param>
public sealed record DatingResult(RingWidths Sample, CrossDatingSettings Settings, IReadOnlyList<ReferenceVerdict> Verdicts)
{
    /// <summary>Compares a sample with every reference.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="references">Name and series of each.</param>
    /// <param name="settings">How to compare.</param>
    /// <exception cref="Imaging.InputProblem">A reference without dates, or an overlap that decides nothing.</exception>
    public static DatingResult Of(RingWidths sample, IReadOnlyList<(string Name, IReadOnlyList<RingWidths> Series)> references, CrossDatingSettings settings) => new(sample, settings,
    [
        .. references.Select(r => DatedReference.Of(r.Name, r.Series, settings.Transform, settings.Mean)).Select(r => new ReferenceVerdict(r, CrossDating.Slide(sample, r, settings), settings.Convention)),
    ]);

    private IReadOnlyList<int> Proposed => [.. Verdicts.Select(v => v.Proposes).OfType<int>()];

    /// <summary>How far the date is borne out.</summary>
    public DatingStrength Strength => Proposed switch
    {
        [] => DatingStrength.NoDate,
        [_] => DatingStrength.OneReference,
        var p when p.Distinct().Count() > 1 => DatingStrength.Contradicted,
        _ => DatingStrength.Agreed,
    };

    /// <summary>Year of the last measured ring; null when there is no date.</summary>
    public int? LastRing => Strength is DatingStrength.OneReference or DatingStrength.Agreed ? Proposed[0] : null;

    /// <summary>The result in a sentence, for a person.</summary>
    public string Told => Strength switch
    {
        DatingStrength.NoDate => "No date: no reference proposes a position that stands out from chance.",
        DatingStrength.Contradicted => FormattableString.Invariant($"No date: the references propose different years for the last ring ({string.Join(", ", Proposed.Distinct().Order())})."),
        DatingStrength.OneReference => FormattableString.Invariant($"Last measured ring {LastRing}, proposed by one reference alone: possible. A second reference and the eye must agree before it is a date."),
        _ => FormattableString.Invariant($"Last measured ring {LastRing}, proposed by {Proposed.Count} references and contradicted by none. The curves must also agree to the eye."),
    };
}
