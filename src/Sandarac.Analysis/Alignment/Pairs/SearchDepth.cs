namespace Sandarac.Analysis.Alignment.Pairs;

/// <summary>How far the search for a photograph's place goes; each includes the ones before, and is several times as slow.</summary>
public enum SearchDepth
{
    /// <summary>Likely sizes and turns, at some hundred pixels; at some three hundred where the overlap may be narrow.</summary>
    Quick,

    /// <summary>The same at up to some six hundred, for faint likeness.</summary>
    Likely,

    /// <summary>Every size from 0.2 to 5, every turn, mirrored or not.</summary>
    Everywhere,
}
