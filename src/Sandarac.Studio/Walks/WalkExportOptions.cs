using System.Text.RegularExpressions;
using Sandarac.Imaging;

namespace Sandarac.Studio;

/// <summary>What an exported folder is to say of itself.</summary>
public sealed partial record WalkExportOptions
{
    /// <summary>Where the folder will be served: a web address. Only IIIF needs it, whose files name their own addresses; the folder's page does not.</summary>
    public string BaseAddress { get; init; } = LocalAddress;

    /// <summary>Who is to be named with the pictures; empty when nobody said.</summary>
    public string Attribution { get; init; } = "";

    /// <summary>Address of a licence of Creative Commons or of a statement of RightsStatements.org, as they write them; empty when nobody said.</summary>
    public string Rights { get; init; } = "";

    /// <summary>The longer side of the pictures has at most so many pixels; 0 for all that there are.</summary>
    public int LongestSide { get; init; }

    /// <summary>An address that any small web server on this machine can serve the folder under.</summary>
    public const string LocalAddress = "http://localhost:8080";

    /// <summary>The same with the address in order: no slash at its end.</summary>
    /// <exception cref="InputProblem">"base-address", "rights".</exception>
    internal WalkExportOptions Checked()
    {
        if (!Uri.TryCreate(BaseAddress, UriKind.Absolute, out var address) || address.Scheme is not ("http" or "https") || address.Query.Length > 0 || address.Fragment.Length > 0)
            throw new InputProblem("base-address", "base", $"\"{BaseAddress}\" is not the address of a folder on the web.", "Give one that begins with https:// or http://, such as https://museum.example/walks/ferry.");
        if (Rights.Length > 0 && !KnownRights().IsMatch(Rights))
            throw new InputProblem("rights", "rights", $"\"{Rights}\" is no licence that IIIF knows.", "Give an address of Creative Commons or RightsStatements.org as they write them, such as http://rightsstatements.org/vocab/InC/1.0/; anything else belongs into the attribution.");
        return this with { BaseAddress = address.AbsoluteUri.TrimEnd('/') };
    }

    /// <summary>IIIF Presentation API 3.0, "rights": these two, written with http.</summary>
    [GeneratedRegex("^http://(creativecommons\\.org/(licenses|publicdomain)/|rightsstatements\\.org/vocab/)[A-Za-z0-9./+-]+$")]
    private static partial Regex KnownRights();
}
