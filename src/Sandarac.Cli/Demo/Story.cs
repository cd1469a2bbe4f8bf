using Sandarac.Studio;

namespace Sandarac.Cli.Demo;

/// <summary>
/// What an invented conservator made of the invented painting: it fills the pages of the demonstration through the desks that the pages write through. Persons, days and observations are made up and say so;
/// what follows from them (dates, verdicts, regions, flags, progress, forecasts) is left to the product.
/// </summary>
internal static class Story
{
    /// <summary>Who works in the demonstration.</summary>
    public const string Conservator = "Ida Watt (invented)", Assistant = "Jon Marsch (invented)", Custodian = "Hedda Priel (invented)", Owner = "Museum of the Tidelands (invented)", Laboratory = "laboratory of the demonstration (invented)";

    /// <summary>What stands in the note of every row that has one.</summary>
    public const string Invented = "Invented for the demonstration.";

    private static readonly (string Name, Action<OpenStudio, Guid> Write)[] Parts =
    [
        ("identity", StoryIdentity.Write), ("samples", StorySamples.Write), ("findings", StoryFindings.Write), ("materials", StoryMaterials.Write), ("rings", StoryRings.Write),
        ("shelf", StoryShelf.Write), ("cleaning tests", StoryTests.Write), ("proposal", StoryProposal.Write), ("treatment", StoryTreatment.Write),
    ];

    /// <summary>Writes what is not there yet.</summary>
    /// <param name="studio">The studio of the demonstration.</param>
    /// <param name="paintingId">The specimen, examined.</param>
    /// <param name="report">Told how much is done, 0 to 1, and the part that is written.</param>
    /// <param name="cancellation">Stops between two parts.</param>
    public static void Write(OpenStudio studio, Guid paintingId, Action<double, string> report, CancellationToken cancellation)
    {
        foreach (var ((name, write), i) in Parts.Select((p, i) => (p, i)))
        {
            cancellation.ThrowIfCancellationRequested();
            report((double)i / Parts.Length, name);
            write(studio, paintingId);
        }
        report(1, "done");
    }
}
