using Microsoft.EntityFrameworkCore;
using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Decisions;

/// <summary>Regions of solubility: those that come with the program, and those that the studio entered with their citation.</summary>
public sealed class StudioRegions(OpenStudio studio)
{
    /// <summary>All that hold, the studio's own first.</summary>
    public IReadOnlyList<SolubilityRegion> All() => [.. Own().Select(r => r.Region), .. SolubilityRegion.All];

    /// <summary>The studio's own that hold, with their keys.</summary>
    public IReadOnlyList<(Guid Id, SolubilityRegion Region)> Own()
    {
        using var db = studio.CreateDb();
        var superseded = db.HouseRegions.AsNoTracking().Where(r => r.SupersedesId != null).Select(r => r.SupersedesId!.Value).ToHashSet();
        return [.. db.HouseRegions.AsNoTracking().Where(r => r.WithdrawnAt == null).AsEnumerable().Where(r => !superseded.Contains(r.Id)).OrderBy(r => r.Name, StringComparer.OrdinalIgnoreCase).Select(r => (r.Id, Read(r)))];
    }

    /// <summary>Enters a region.</summary>
    /// <exception cref="InputProblem">There is one of this name ("region-there").</exception>
    public void Add(SolubilityRegion region, string userName)
    {
        if (All().Any(r => r.Name.Equals(region.Name, StringComparison.OrdinalIgnoreCase) && r.GetType() == region.GetType())) throw new InputProblem("region-there", region.Name, $"There is a region \"{region.Name}\" already.", "Withdraw it first, or say in the name what differs.");
        var (sphere, corners) = (region as HansenSphere, (region as TeasArea)?.Corners ?? []);
        using var db = studio.CreateDb();
        db.HouseRegions.Add(new HouseRegion
        {
            Name = region.Name, DispersionMpa = sphere?.Centre.Dispersion, PolarMpa = sphere?.Centre.Polar, HydrogenMpa = sphere?.Centre.Hydrogen, RadiusMpa = sphere?.Radius,
            TeasOutline = [.. corners.Select(c => new Point2(c.Dispersion, c.Hydrogen))], Citation = region.Source, By = userName, At = studio.Now,
        });
        db.SaveChanges();
    }

    /// <summary>Withdraws one of the studio's own; that it was there stays on record.</summary>
    /// <exception cref="InputProblem">It is not there ("region-gone").</exception>
    public void Withdraw(Guid id)
    {
        using var db = studio.CreateDb();
        var row = db.HouseRegions.SingleOrDefault(r => r.Id == id && r.WithdrawnAt == null) ?? throw new InputProblem("region-gone", id.ToString(), "That region is not there any more.", "Load the page again.");
        row.WithdrawnAt = studio.Now;
        db.SaveChanges();
    }

    private static SolubilityRegion Read(HouseRegion r) => r.RadiusMpa is { } radius ? new HansenSphere(r.Name, new(r.DispersionMpa!.Value, r.PolarMpa!.Value, r.HydrogenMpa!.Value), radius, r.Citation)
        : new TeasArea(r.Name, [.. r.TeasOutline.Select(p => new TeasFractions(p.X, 100 - p.X - p.Y, p.Y))], r.Citation);
}
