using Microsoft.EntityFrameworkCore;
using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Geometry;

namespace Sandarac.Studio.Record;

/// <summary>The record as tables: one model for SQLite and for PostgreSQL. Times are UTC, stored as ticks, because SQLite cannot order dates.</summary>
public abstract class StudioDb : DbContext
{
    private protected StudioDb(DbContextOptions options) : base(options)
    {
    }

    /// <summary>Paintings.</summary>
    public DbSet<Painting> Paintings => Set<Painting>();

    /// <summary>Photographs.</summary>
    public DbSet<Photograph> Photographs => Set<Photograph>();

    /// <summary>Alignments, superseded ones included.</summary>
    public DbSet<Alignment> Alignments => Set<Alignment>();

    /// <summary>Runs.</summary>
    public DbSet<Run> Runs => Set<Run>();

    /// <summary>Rasters of runs.</summary>
    public DbSet<RunRaster> RunRasters => Set<RunRaster>();

    /// <summary>What runs proposed in the pixels of photographs that lie on no plane.</summary>
    public DbSet<RunProposal> RunProposals => Set<RunProposal>();

    /// <summary>Zones, deleted ones included.</summary>
    public DbSet<Zone> Zones => Set<Zone>();

    /// <summary>What zones were before.</summary>
    public DbSet<ZoneChange> ZoneChanges => Set<ZoneChange>();

    /// <summary>Paint samples, those taken out included; so with layers, stages and relations.</summary>
    public DbSet<Sample> Samples => Set<Sample>();

    /// <summary>Layers of sections.</summary>
    public DbSet<SectionLayer> SectionLayers => Set<SectionLayer>();

    /// <summary>Stages of build-ups.</summary>
    public DbSet<Stage> Stages => Set<Stage>();

    /// <summary>Relations between stages that people stated.</summary>
    public DbSet<Relation> Relations => Set<Relation>();

    /// <summary>Findings, those taken out included.</summary>
    public DbSet<Finding> Findings => Set<Finding>();

    /// <summary>Terms that the studio added.</summary>
    public DbSet<HouseTerm> HouseTerms => Set<HouseTerm>();

    /// <summary>What people decided about candidates.</summary>
    public DbSet<CandidateDecision> CandidateDecisions => Set<CandidateDecision>();

    /// <summary>Conditions of paintings at one time, those taken out included.</summary>
    public DbSet<ConditionState> ConditionStates => Set<ConditionState>();

    /// <summary>Sealed states.</summary>
    public DbSet<StateSeal> StateSeals => Set<StateSeal>();

    /// <summary>Signatures under sealed states.</summary>
    public DbSet<Signature> Signatures => Set<Signature>();

    /// <summary>Walks, those taken out included.</summary>
    public DbSet<Walk> Walks => Set<Walk>();

    /// <summary>Cleaning tests, those taken out included; so with what follows.</summary>
    public DbSet<CleaningTest> CleaningTests => Set<CleaningTest>();

    /// <summary>Proposals.</summary>
    public DbSet<Proposal> Proposals => Set<Proposal>();

    /// <summary>Approvals of proposals.</summary>
    public DbSet<ProposalApproval> ProposalApprovals => Set<ProposalApproval>();

    /// <summary>Steps of treatments.</summary>
    public DbSet<TreatmentStep> TreatmentSteps => Set<TreatmentStep>();

    /// <summary>Entries of treatments' logs.</summary>
    public DbSet<LogEntry> LogEntries => Set<LogEntry>();

    /// <summary>Spectra.</summary>
    public DbSet<MeasuredSpectrum> Spectra => Set<MeasuredSpectrum>();

    /// <summary>Materials that people state.</summary>
    public DbSet<MaterialFound> MaterialsFound => Set<MaterialFound>();

    /// <summary>Ring widths.</summary>
    public DbSet<RingSeries> RingSeries => Set<RingSeries>();

    /// <summary>Files to cross-date against.</summary>
    public DbSet<ReferenceChronology> ReferenceChronologies => Set<ReferenceChronology>();

    /// <summary>What the studio has on its shelf.</summary>
    public DbSet<ShelfItem> ShelfItems => Set<ShelfItem>();

    /// <summary>Regions of solubility that people entered.</summary>
    public DbSet<HouseRegion> HouseRegions => Set<HouseRegion>();

    /// <summary>What a search looks at; made from the rest.</summary>
    public DbSet<SearchEntry> SearchEntries => Set<SearchEntry>();

    /// <summary>What everything written was at each revision.</summary>
    public DbSet<WrittenChange> WrittenChanges => Set<WrittenChange>();

    /// <summary>Marks that are being taught with.</summary>
    public DbSet<MarkSheet> MarkSheets => Set<MarkSheet>();

    /// <summary>Objects in the store.</summary>
    public DbSet<StoredObject> Objects => Set<StoredObject>();

    /// <inheritdoc/>
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcTicks>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>();
        Json<ImageFacts>(configurationBuilder);
        Json<PyramidFacts>(configurationBuilder);
        Json<PlaneMap>(configurationBuilder);
        Json<Residuals>(configurationBuilder);
        Json<RunProblem>(configurationBuilder);
        Json<Box>(configurationBuilder);
        Json<IReadOnlyList<Point2>>(configurationBuilder);
        Json<IReadOnlyList<Guid>>(configurationBuilder);
        Json<IReadOnlyList<Warning>>(configurationBuilder);
        Json<IReadOnlyList<Figure>>(configurationBuilder);
        Json<IReadOnlyList<RunSource>>(configurationBuilder);
        Json<IReadOnlyDictionary<string, string>>(configurationBuilder);
        Json<MarkSheetContent>(configurationBuilder);
        Json<IReadOnlyList<Evidence>>(configurationBuilder);
        Json<IReadOnlyList<StateEntry>>(configurationBuilder);
        Json<IReadOnlyList<WalkStep>>(configurationBuilder);
        Json<IReadOnlyList<AgentPart>>(configurationBuilder);
        Json<IReadOnlyList<ProposalOption>>(configurationBuilder);
        Json<IReadOnlyList<LogMaterial>>(configurationBuilder);
        Json<IReadOnlyList<SpectrumElement>>(configurationBuilder);
        Json<IReadOnlyList<double>>(configurationBuilder);
    }

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<StoredObject>().HasKey(o => o.Sha256);
        modelBuilder.Entity<Photograph>(photograph =>
        {
            photograph.HasOne<Painting>().WithMany(p => p.Photographs).HasForeignKey(p => p.PaintingId);
            photograph.HasOne<StoredObject>().WithMany().HasForeignKey(p => p.Sha256).OnDelete(DeleteBehavior.Restrict);
            photograph.HasIndex(p => new { p.PaintingId, p.Sha256 }).IsUnique();
        });
        modelBuilder.Entity<Alignment>(alignment =>
        {
            alignment.HasOne<Photograph>().WithMany(p => p.Alignments).HasForeignKey(a => a.PhotographId);
            alignment.HasIndex(a => new { a.PhotographId, a.Version }).IsUnique();
        });
        modelBuilder.Entity<Run>(run =>
        {
            run.HasOne<Painting>().WithMany(p => p.Runs).HasForeignKey(r => r.PaintingId);
            run.HasIndex(r => r.Key);
            run.HasIndex(r => r.State);
        });
        modelBuilder.Entity<RunRaster>(raster =>
        {
            raster.HasKey(r => new { r.RunId, r.Name });
            raster.HasOne<Run>().WithMany(r => r.Rasters).HasForeignKey(r => r.RunId);
        });
        modelBuilder.Entity<RunProposal>(proposal =>
        {
            proposal.HasKey(p => new { p.RunId, p.Number });
            proposal.HasOne<Run>().WithMany().HasForeignKey(p => p.RunId);
        });
        modelBuilder.Entity<Zone>(zone =>
        {
            zone.HasOne<Painting>().WithMany(p => p.Zones).HasForeignKey(z => z.PaintingId);
            zone.Property(z => z.Revision).IsConcurrencyToken();
        });
        modelBuilder.Entity<MarkSheet>(sheet =>
        {
            sheet.HasKey(s => s.PaintingId);
            sheet.HasOne<Painting>().WithOne().HasForeignKey<MarkSheet>(s => s.PaintingId);
            sheet.Property(s => s.Revision).IsConcurrencyToken();
        });
        modelBuilder.Entity<ZoneChange>(change =>
        {
            change.HasKey(c => new { c.ZoneId, c.Revision });
            change.HasOne<Zone>().WithMany(z => z.History).HasForeignKey(c => c.ZoneId);
        });
        Written<Sample, SampleContent>(modelBuilder);
        Written<SectionLayer, LayerContent>(modelBuilder);
        Written<Stage, StageContent>(modelBuilder);
        Written<Relation, RelationContent>(modelBuilder);
        Written<Finding, FindingContent>(modelBuilder);
        Written<ConditionState, ConditionStateContent>(modelBuilder);
        Written<Walk, WalkContent>(modelBuilder);
        Written<CleaningTest, CleaningTestContent>(modelBuilder);
        Written<Proposal, ProposalContent>(modelBuilder);
        Written<TreatmentStep, TreatmentStepContent>(modelBuilder);
        Written<LogEntry, LogEntryContent>(modelBuilder);
        Written<MeasuredSpectrum, SpectrumContent>(modelBuilder);
        Written<MaterialFound, MaterialFoundContent>(modelBuilder);
        Written<RingSeries, RingSeriesContent>(modelBuilder);
        modelBuilder.Entity<ProposalApproval>(approval =>
        {
            approval.HasKey(a => a.ProposalId);
            approval.HasOne<Proposal>().WithOne().HasForeignKey<ProposalApproval>(a => a.ProposalId);
        });
        modelBuilder.Entity<HouseTerm>().HasKey(t => t.Key);
        modelBuilder.Entity<CandidateDecision>(decision =>
        {
            decision.HasKey(d => new { d.ZoneId, d.Number });
            decision.HasOne<Zone>().WithMany().HasForeignKey(d => d.ZoneId);
            decision.HasIndex(d => d.PaintingId);
        });
        modelBuilder.Entity<StateSeal>(seal =>
        {
            seal.HasKey(s => s.StateId);
            seal.HasOne<ConditionState>().WithOne().HasForeignKey<StateSeal>(s => s.StateId);
        });
        modelBuilder.Entity<Signature>(signature =>
        {
            signature.HasKey(s => new { s.StateId, s.Number });
            signature.HasOne<StateSeal>().WithMany(s => s.Signatures).HasForeignKey(s => s.StateId);
        });
        modelBuilder.Entity<SearchEntry>(entry =>
        {
            entry.HasIndex(e => e.SubjectId).IsUnique();
            entry.HasIndex(e => e.PaintingId);
            entry.HasIndex(e => new { e.Term, e.On });
        });
        modelBuilder.Entity<WrittenChange>().HasKey(c => new { c.SubjectId, c.Revision });
    }

    private static void Written<TRow, TContent>(ModelBuilder builder) where TRow : Written<TContent> where TContent : class, new() => builder.Entity<TRow>(row =>
    {
        row.HasOne<Painting>().WithMany().HasForeignKey(r => r.PaintingId);
        row.ComplexProperty(r => r.Content, c => { foreach (var p in c.Metadata.ComplexType.GetProperties()) p.SetColumnName(p.Name); });
        row.Property(r => r.Revision).IsConcurrencyToken();
    });

    private static void Json<T>(ModelConfigurationBuilder builder) =>
        builder.Properties<T>().HaveConversion<JsonText<T>, JsonComparer<T>>();
}
