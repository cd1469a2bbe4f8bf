using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Decisions;

/// <summary>What stands on the studio's shelf.</summary>
public sealed class StudioShelf(OpenStudio studio)
{
    private const int Longest = 200;

    /// <summary>What is there now, by name.</summary>
    public IReadOnlyList<ShelfItem> Items()
    {
        using var db = studio.CreateDb();
        return [.. db.ShelfItems.AsNoTracking().Where(i => i.RemovedAt == null).AsEnumerable().OrderBy(i => i.Name, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Names of the table's solvents that are there.</summary>
    public IReadOnlyList<string> Solvents() => [.. Items().Select(i => SolventTable.Find(i.Name)?.Name).OfType<string>().Distinct()];

    /// <summary>Puts something on the shelf. A solvent of the table gets the table's name, whatever alias it was called by.</summary>
    /// <param name="name">A solvent by name, alias or CAS number, or any material.</param>
    /// <param name="batch">Batch or delivery; may be empty.</param>
    /// <param name="supplier">Who made it, and its grade; may be empty.</param>
    /// <param name="sheetOn">The day of its safety data sheet; null when nobody noted it.</param>
    /// <param name="userName">Who puts it there.</param>
    /// <exception cref="InputProblem">It has no name, or a text is too long ("shelf-name"); the sheet's day lies in the future ("shelf-sheet").</exception>
    public ShelfItem Put(string name, string batch, string supplier, DateOnly? sheetOn, string userName)
    {
        if (string.IsNullOrWhiteSpace(name) || new[] { name, batch, supplier }.Any(t => t.Length > Longest || t.Any(char.IsControl)))
            throw new InputProblem("shelf-name", "name", $"What stands on the shelf has a name, and no text of it has more than {Longest} letters.", "Give a solvent's name as the table has it, or what the bottle says.");
        if (sheetOn > DateOnly.FromDateTime(studio.Now).AddDays(1)) throw new InputProblem("shelf-sheet", "sheet", "The day of the safety data sheet lies in the future.", "Give the day that is printed on the sheet.");
        using var db = studio.CreateDb();
        var item = new ShelfItem { Name = SolventTable.Find(name)?.Name ?? name.Trim(), Batch = batch.Trim(), Supplier = supplier.Trim(), SheetOn = sheetOn, By = userName, At = studio.Now };
        db.ShelfItems.Add(item);
        db.SaveChanges();
        return item;
    }

    /// <summary>Takes something off the shelf; that it stood there stays on record.</summary>
    /// <exception cref="InputProblem">It is not there ("shelf-gone").</exception>
    public void TakeOff(Guid id)
    {
        using var db = studio.CreateDb();
        var item = db.ShelfItems.SingleOrDefault(i => i.Id == id && i.RemovedAt == null) ?? throw new InputProblem("shelf-gone", id.ToString(), "That is not on the shelf any more.", "Load the page again.");
        item.RemovedAt = studio.Now;
        db.SaveChanges();
    }
}
