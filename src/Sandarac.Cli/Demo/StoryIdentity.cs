using Sandarac.Specimen;
using Sandarac.Studio;

namespace Sandarac.Cli.Demo;

/// <summary>What the catalogue states of the painting: years that its own pigments, smalt and lead-tin yellow, are held against.</summary>
internal static class StoryIdentity
{
    /// <summary>Years between which the painting is said to have been made.</summary>
    public const int DateFrom = 1640, DateTo = 1660;

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var identity = new Identity(studio);
        if (identity.Of(paintingId) is not (_, 0)) return;
        identity.Change(paintingId, 0, new PaintingIdentity(SpecimenPainting.Title, SpecimenPainting.Technique, "oak panel, cradled", "DEMO 1 (invented)", DateFrom, DateTo), Story.Conservator);
    }
}
