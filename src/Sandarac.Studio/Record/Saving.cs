using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Sandarac.Studio.Record;

/// <summary>Saving what must hold together.</summary>
internal static class Saving
{
    /// <summary>Saves the unit of work and rows for objects that have none yet, in one transaction. Two runs may make the same object at the same moment:
    /// the row that came first stays. Sorted, so that two such transactions wait for each other in one order only.</summary>
    /// <param name="db">The unit of work.</param>
    /// <param name="objects">The objects.</param>
    /// <param name="also">What belongs into the same transaction and needs the rows to be there.</param>
    public static void SaveWithObjects(this StudioDb db, IEnumerable<StoredObject> objects, Action? also = null)
    {
        using var transaction = db.Database.BeginTransaction();
        foreach (var o in objects.OrderBy(o => o.Sha256, StringComparer.Ordinal))
            db.Database.ExecuteSql($"""
                INSERT INTO "Objects" ("Sha256", "Bytes", "MediaType", "CreatedAt", "IsDerived") VALUES ({o.Sha256}, {o.Bytes}, {o.MediaType}, {o.CreatedAt.Ticks}, {o.IsDerived})
                ON CONFLICT DO NOTHING
                """);
        db.SaveChanges();
        also?.Invoke();
        transaction.Commit();
    }

    /// <summary>Begins a transaction beside which nobody else writes into a painting's written record: what is checked in it still holds when it is committed. SQLite has one writer at a time,
    /// and begins as that one; in PostgreSQL the painting's row is held.</summary>
    public static IDbContextTransaction HoldPainting(this StudioDb db, Guid paintingId)
    {
        var transaction = db.Database.BeginTransaction();
        if (db is PostgresStudioDb) db.Database.ExecuteSql($"""SELECT 1 FROM "Paintings" WHERE "Id" = {paintingId} FOR UPDATE""");
        return transaction;
    }
}
