using Microsoft.EntityFrameworkCore;

namespace Sandarac.Studio.Record;

/// <summary>Saving rows together with the objects that they speak of.</summary>
internal static class Saving
{
    /// <summary>Saves the unit of work and rows for objects that have none yet, in one transaction. Two runs may make the same object at the same moment:
    /// the row that came first stays. Sorted, so that two such transactions wait for each other in one order only.</summary>
    public static void SaveWithObjects(this StudioDb db, IEnumerable<StoredObject> objects)
    {
        using var transaction = db.Database.BeginTransaction();
        foreach (var o in objects.OrderBy(o => o.Sha256, StringComparer.Ordinal))
            db.Database.ExecuteSql($"""
                INSERT INTO "Objects" ("Sha256", "Bytes", "MediaType", "CreatedAt", "IsDerived") VALUES ({o.Sha256}, {o.Bytes}, {o.MediaType}, {o.CreatedAt.Ticks}, {o.IsDerived})
                ON CONFLICT DO NOTHING
                """);
        db.SaveChanges();
        transaction.Commit();
    }
}
