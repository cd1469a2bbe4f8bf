using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Rings;
using Sandarac.Analysis.Rings.Files;
using Sandarac.Imaging;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Rings;

/// <summary>Dated series that the studio keeps to compare with; the files lie untouched in the store.</summary>
public sealed class RingReferences(OpenStudio studio)
{
    /// <summary>References in use, by name.</summary>
    public IReadOnlyList<ReferenceChronology> All()
    {
        using var db = studio.CreateDb();
        return [.. db.ReferenceChronologies.AsNoTracking().Where(c => c.WithdrawnAt == null).OrderBy(c => c.Name).ThenBy(c => c.Id)];
    }

    /// <summary>Adds a file.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="region">Species and region.</param>
    /// <param name="source">Where it comes from and who may use it; never empty.</param>
    /// <param name="fileName">The file's name, which tells its kind.</param>
    /// <param name="content">Its bytes.</param>
    /// <param name="userName">Who adds it.</param>
    /// <exception cref="InputProblem">Not a file of ring widths; no series has dates; no name or source; the name is taken.</exception>
    public ReferenceChronology Add(string name, string region, string source, string fileName, Stream content, string userName)
    {
        (name, region, source) = (Short("name", name), region.Trim(), Short("source", source));
        if (region.Length > 500) throw new InputProblem("text-too-long", "region", "The region is longer than 500 letters.", "Shorten it.");
        var path = studio.Objects.NewTemporaryPath();
        try
        {
            using (var file = File.Create(path)) CopyAtMost(content, file, fileName);
            using (var file = File.OpenRead(path))
                if (!RingFile.Parse(fileName, file).Any(s => s.IsDated)) throw new InputProblem("reference-undated", fileName, $"No series of {fileName} has dates.", "Give a reference whose years are known.");
            using var db = studio.CreateDb();
            if (db.ReferenceChronologies.Any(c => c.Name == name && c.WithdrawnAt == null)) throw new InputProblem("reference-name", name, $"There is a reference {name} already.", "Give it another name, or withdraw the other.");
            var stored = studio.Objects.Adopt(path, null, "text/plain", isDerived: false);
            var row = new ReferenceChronology { Name = name, FileName = Path.GetFileName(fileName), Sha256 = stored.Sha256, Region = region, Source = source, By = userName, At = studio.Now };
            db.ReferenceChronologies.Add(row);
            db.SaveWithObjects([stored]);
            studio.Objects.Confirm(stored.Sha256);
            return row;
        }
        finally
        {
            File.Delete(path);
        }
    }

    /// <summary>Takes one out of use; what was dated by it stays. Doing so twice changes nothing.</summary>
    /// <exception cref="InputProblem">"unknown-reference".</exception>
    public void Withdraw(Guid id)
    {
        using var db = studio.CreateDb();
        var row = db.ReferenceChronologies.Find(id) ?? throw Unknown(id);
        row.WithdrawnAt ??= studio.Now;
        db.SaveChanges();
    }

    /// <summary>Name and series of references.</summary>
    /// <exception cref="InputProblem">"unknown-reference"; the file is missing or damaged.</exception>
    public IReadOnlyList<(string Name, IReadOnlyList<RingWidths> Series)> Read(IReadOnlyCollection<Guid> ids)
    {
        using var db = studio.CreateDb();
        return [.. ids.Distinct().Select(id => db.ReferenceChronologies.Find(id) ?? throw Unknown(id)).Select(Read)];
    }

    private (string, IReadOnlyList<RingWidths>) Read(ReferenceChronology row)
    {
        using var file = studio.Objects.OpenRead(row.Sha256);
        return (row.Name, RingFile.Parse(row.FileName, file));
    }

    private static void CopyAtMost(Stream from, FileStream to, string name)
    {
        var buffer = new byte[1 << 16];
        for (int n; (n = from.Read(buffer)) > 0;)
        {
            to.Write(buffer, 0, n);
            if (to.Length > RingFile.LargestBytes) throw new InputProblem("rings-too-large", name, $"{name} is larger than ring widths need.", "Check that it is the file you mean.");
        }
    }

    private static string Short(string subject, string text) => text.Trim() is { Length: > 0 and <= 500 } trimmed ? trimmed
        : throw new InputProblem("reference-words", subject, $"The reference's {subject} is empty or longer than 500 letters.", "Say what it is and where it comes from.");

    private static InputProblem Unknown(Guid id) => new("unknown-reference", id.ToString(), "There is no such reference.", "Reload the page; it lists the references of this studio.");
}
