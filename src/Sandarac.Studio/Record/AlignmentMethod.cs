namespace Sandarac.Studio.Record;

/// <summary>How a photograph came onto the plane, as it is stored.</summary>
public static class AlignmentMethod
{
    /// <summary>By what it shares with another photograph.</summary>
    public const string Matched = "matched";

    /// <summary>Together with others, by what they share.</summary>
    public const string Jointly = "matched-jointly";

    /// <summary>By point pairs that a person set.</summary>
    public const string ByPairs = "pairs-by-hand";

    /// <summary>By the painted face's corners, found.</summary>
    public const string Found = "corners-found";

    /// <summary>By its corners, set by a person.</summary>
    public const string ByHand = "corners-by-hand";

    /// <summary>The whole frame is taken as the painted face.</summary>
    public const string WholeFrame = "whole-frame";

    /// <summary>It stays by itself.</summary>
    public const string None = "none";
}
