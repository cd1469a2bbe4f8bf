namespace Sandarac.Analysis.Spectra.Elements;

/// <summary>How sure an element is. What none of them says: how much of it there is, or in which layer.</summary>
public enum ElementConfidence
{
    /// <summary>Two or more lines that stand by themselves, in proportion.</summary>
    Certain,

    /// <summary>One line that stands by itself; further ones are too weak or hidden.</summary>
    Probable,

    /// <summary>A line stands by itself, but something speaks against it: a line that should be seen is not, or the element is seldom met in paint.</summary>
    Possible,

    /// <summary>Its lines lie under others', and none of its own decides.</summary>
    CannotBeTold,
}

/// <summary>A line, or lines that the detector does not part, of an element.</summary>
/// <param name="Name">"Ka", "Lb".</param>
/// <param name="Kev">Energy, keV, from the table.</param>
/// <param name="Counts">Counts of it that were measured within the middle of the line, background and others taken off.</param>
/// <param name="Expected">Counts that the element's other lines let expect there.</param>
/// <param name="Sigma">Standard deviation of that: counting, and the doubt about what was taken off.</param>
/// <param name="IsOwn">Whether it stands by itself: significant, in proportion, and more than half of what is there even when the others are as strong as they can be.</param>
/// <param name="Under">What it lies under; null when it is clear of others.</param>
public sealed record ElementLine(string Name, double Kev, double Counts, double Expected, double Sigma, bool IsOwn, string? Under)
{
    /// <summary>Measured counts in standard deviations.</summary>
    public double Significance => Counts / Sigma;
}

/// <summary>An element that a spectrum shows, or about which it cannot tell.</summary>
/// <param name="Element">Symbol.</param>
/// <param name="Confidence">How sure.</param>
/// <param name="Counts">Counts of its strongest line in the fit; 0 where it cannot be told.</param>
/// <param name="Uncertainty">Half-width of the 95 % interval of that; where it cannot be told, the most that could be hidden.</param>
/// <param name="Reason">Why, in one sentence or two.</param>
/// <param name="Lines">Its lines, the strongest first.</param>
public sealed record ElementFound(string Element, ElementConfidence Confidence, double Counts, double Uncertainty, string Reason, IReadOnlyList<ElementLine> Lines);
