using Sandarac.Studio;
using Sandarac.Studio.Decisions;

namespace Sandarac.Cli.Demo;

/// <summary>Bottles on the shelf: the cleaning tests, the blends and the log choose among them.</summary>
internal static class StoryShelf
{
    /// <summary>The aqueous agent, mixed in the studio.</summary>
    public const string Citrate = "triammonium citrate 1 % in water (pH 7.0)";

    /// <summary>Batches, as the log names them.</summary>
    public const string IsooctaneBatch = "DEMO-0412", EthanolBatch = "DEMO-0377", CitrateBatch = "DEMO-0405", ResinBatch = "DEMO-0398";

    private static readonly DateOnly Sheets = new(2024, 2, 1);

    private static readonly (string Name, string Batch)[] Bottles =
        [("isooctane", IsooctaneBatch), ("ethanol", EthanolBatch), ("acetone", "DEMO-0381"), ("propan-2-ol", "DEMO-0386"), (Citrate, CitrateBatch), ("urea-aldehyde resin", ResinBatch)];

    public static void Write(OpenStudio studio, Guid paintingId)
    {
        var shelf = new StudioShelf(studio);
        using var db = studio.CreateDb();
        var there = db.ShelfItems.Select(i => i.Batch).ToHashSet();
        foreach (var (name, batch) in Bottles.Where(b => !there.Contains(b.Batch))) shelf.Put(name, batch, Story.Invented, Sheets, Story.Conservator);
    }
}
