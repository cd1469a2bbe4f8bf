using System.Text;
using Sandarac.Analysis.Rings.Dating;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Studio;
using Sandarac.Studio.Record;
using Sandarac.Studio.Rings;

namespace Sandarac.Cli.Demo;

/// <summary>Ring widths of both ends of the panel and of a batten of its cradle, with two references to compare them with. One end's date is accepted as the product proposes it; the others are left to whoever looks.</summary>
internal static class StoryRings
{
    private static readonly (string Name, string Board)[] Boards =
        [("LEFT", "the panel, left end"), ("RIGHT", "the panel, right end"), ("BATTEN", "a batten of the cradle, second from the left")];

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        Reference(studio, "northern stand", 0);
        Reference(studio, "southern stand", 1);
        var series = Taken(studio, paintingId);
        foreach (var (name, board) in Boards) Describe(studio, series.FirstOrDefault(s => s.Content.Name == name), board);
        Accept(studio, new RingSeriesRecords(studio).Of(paintingId).FirstOrDefault(s => s.Content.Name == "LEFT"));
    }

    private static void Reference(OpenStudio studio, string site, int number)
    {
        var (references, file) = (new RingReferences(studio), $"demo_reference_{number + 1}.rwl");
        using (var db = studio.CreateDb())
            if (db.ReferenceChronologies.Any(r => r.FileName == file)) return;
        references.Add($"Invented oak chronology, {site}", "oak, drawn, of no region", Story.Invented, file, Text(TucsonFile.Write(DrawnForest.Reference(number))), Story.Conservator);
    }

    /// <summary>All three or, when one was there before, none: a file is taken in as a whole.</summary>
    private static IReadOnlyList<RingSeries> Taken(OpenStudio studio, Guid paintingId)
    {
        var records = new RingSeriesRecords(studio);
        return records.Of(paintingId).Count + records.Removed(paintingId).Count > 0 ? records.Of(paintingId)
            : new RingDesk(studio).Import(paintingId, "demo_panel.rwl", Text(TucsonFile.Write(DrawnForest.Boards())), Story.Conservator);
    }

    private static void Describe(OpenStudio studio, RingSeries? series, string board)
    {
        if (series is { Revision: 1 }) new RingSeriesRecords(studio).Change(series.Id, 1, series.Content with { Board = board, Note = Story.Invented }, Story.Conservator);
    }

    private static void Accept(OpenStudio studio, RingSeries? series)
    {
        if (series is not { Revision: 2 }) return;
        var ask = new RingDatingAsk([.. new RingReferences(studio).All().Select(r => r.Id)], RingTransformKind.BailliePilcher, TConvention.Pairs, MasterMean.Biweight, null, "", "");
        var dating = ask.Date(studio, series.Id);
        if (dating.Dating.LastRing is not null) new RingSeriesRecords(studio).Change(series.Id, 2, dating.Accepted(series.Content, Story.Conservator), Story.Conservator);
    }

    private static MemoryStream Text(string text) => new(Encoding.ASCII.GetBytes(text));
}
