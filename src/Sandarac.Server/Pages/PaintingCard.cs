using Microsoft.EntityFrameworkCore;
using Sandarac.Server.Api;
using Sandarac.Server.Pages.Language;
using Sandarac.Studio;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Pages;

/// <summary>A painting in the list of paintings, with the picture that stands for it.</summary>
internal sealed record PaintingCard(Guid Id, string Title, string? Technique, string Size, int Photographs, DateTime CreatedAt,
    string LayerId, string? Version)
{
    public static IReadOnlyList<PaintingCard> All(OpenStudio studio)
    {
        using var db = studio.CreateDb();
        return [.. db.Paintings.AsNoTracking().Include(p => p.Photographs).ThenInclude(p => p.Alignments.Where(a => a.SupersededBy == null))
            .OrderByDescending(p => p.CreatedAt).AsSplitQuery().AsEnumerable().Select(Of)];
    }

    private static PaintingCard Of(Painting painting)
    {
        var photograph = painting.Photographs.InOrder().FirstOrDefault();
        var onPlane = photograph?.Alignments.LastOrDefault()?.PlaneImage;
        var shown = onPlane ?? photograph?.Pyramid;
        return new PaintingCard(painting.Id, painting.Title, painting.Technique, PageText.Phrasing.Size(painting), painting.Photographs.Count,
            painting.CreatedAt, $"{(onPlane is null ? 'o' : 'p')}-{photograph?.Id}", shown is null ? null : LayerShape.VersionOf(shown));
    }
}
