using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>Rows by their key, read only, or the problem that there are none.</summary>
internal static class RowLookup
{
    public static Painting FindPainting(this OpenStudio studio, Guid id)
    {
        using var db = studio.CreateDb();
        return db.Paintings.AsNoTracking().FirstOrDefault(p => p.Id == id) ?? throw Unknown("painting", id, "Choose one from the list of paintings.");
    }

    public static Photograph FindPhotograph(this OpenStudio studio, Guid id)
    {
        using var db = studio.CreateDb();
        return db.Photographs.AsNoTracking().Include(p => p.Alignments.OrderBy(a => a.Version)).FirstOrDefault(p => p.Id == id)
            ?? throw Unknown("photograph", id, "The page of a painting's photographs lists them.");
    }

    public static Run FindRun(this OpenStudio studio, Guid id)
    {
        using var db = studio.CreateDb();
        return db.Runs.AsNoTracking().Include(r => r.Rasters).FirstOrDefault(r => r.Id == id)
            ?? throw Unknown("run", id, "The page of a painting's readings lists its runs.");
    }

    private static InputProblem Unknown(string what, Guid id, string remedy) => new($"unknown-{what}", id.ToString(), $"There is no such {what}.", remedy);
}
