using Sandarac.Analysis.Declaring;
using Sandarac.Analysis.Lights;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Examine;

/// <summary>Which photographs a reading is given when nobody chose them.</summary>
internal static class InputChoice
{
    /// <summary>Whether a slot takes a photograph's light.</summary>
    public static bool Takes(InputSlot slot, Photograph photograph) => slot.Lights.Count == 0 || slot.Lights.Any(l => l.Code == photograph.Light);

    /// <summary>Best first: surely aligned, then in the order in which the slot names the lights, then the finer one, then by name.</summary>
    public static IEnumerable<Photograph> Best(InputSlot slot, IEnumerable<Photograph> usable) => usable.Where(p => p.Subject == PhotographSubject.Painting && Takes(slot, p))
        .OrderBy(p => p.Alignments.InForce()?.Verdict ?? Verdict.NotAligned)
        .ThenBy(p => slot.Lights.TakeWhile(l => l.Code != p.Light).Count())
        .ThenBy(p => p.Alignments.InForce()?.MmPerPixel ?? double.MaxValue).ThenBy(p => p.FileName, StringComparer.Ordinal);

    /// <summary>Of the best, as many as the slot takes: all that lie on the first one's grid.</summary>
    public static IReadOnlyList<Photograph> AllOf(InputSlot slot, IEnumerable<Photograph> usable)
    {
        var best = Best(slot, usable).ToList();
        return [.. best.Where(p => Grid(p) == Grid(best[0])).Take(slot.Maximum)];
    }

    /// <summary>The chosen photographs, and the even boards that belong to them where the reading can use one.</summary>
    public static Dictionary<string, IReadOnlyList<Guid>> WithBoards(Declaration declaration, IReadOnlyDictionary<string, IReadOnlyList<Photograph>> chosen, IReadOnlyList<Photograph> photographs)
    {
        var inputs = chosen.ToDictionary(c => c.Key, c => (IReadOnlyList<Guid>)[.. c.Value.Select(p => p.Id)]);
        foreach (var slot in declaration.Inputs.Where(s => s.BoardOf is not null))
        {
            // Boards for some photographs only are of no use: their light is not compared with that of the others.
            var boards = chosen[slot.BoardOf!].Take(slot.Maximum).Select(p => BoardOf(p, photographs)?.Id).ToList();
            if (boards is [not null, ..] && boards.All(b => b is not null)) inputs[slot.Name] = [.. boards.Select(b => b!.Value).Distinct()];
        }
        return inputs;
    }

    /// <summary>The even board that was taken under the same lamps with the same camera.</summary>
    private static Photograph? BoardOf(Photograph photograph, IReadOnlyList<Photograph> photographs) => photograph.Subject is PhotographSubject.FlatField or PhotographSubject.DarkFrame ? null
        : photographs.FirstOrDefault(f => f.Subject == PhotographSubject.FlatField && (f.AzimuthDeg is null || f.AzimuthDeg == photograph.AzimuthDeg)
            && (f.Light, f.LightSide, f.Facts.Width, f.Facts.Height) == (photograph.Light, photograph.LightSide, photograph.Facts.Width, photograph.Facts.Height));

    private static (int, int, Box)? Grid(Photograph photograph) => photograph.Alignments.InForce() is { PlaneImage: { } image, PlaneExtent: { } extent } ? (image.Width, image.Height, extent) : null;
}
