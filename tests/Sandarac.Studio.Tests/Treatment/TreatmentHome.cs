using Sandarac.Studio.Record;
using Sandarac.Studio.Tests.Support;
using Sandarac.Studio.Treatment;

namespace Sandarac.Studio.Tests.Treatment;

/// <summary>A painting of 412 x 518 mm with a proposal for it: the varnish is taken off an upper band of 400 cm2 and a loss is retouched. Invented.</summary>
internal sealed class TreatmentHome : IDisposable
{
    public const string User = "marta";

    public static readonly DateOnly Day = new(2026, 3, 2);

    private readonly TemporaryStudio _home;

    public TreatmentHome(Database database = Database.Sqlite, PostgresServer? server = null)
    {
        _home = new TemporaryStudio(database, server);
        Painting = _home.AddPainting();
        Band = Zone("band", 0, 0, 400, 100);
    }

    public OpenStudio Studio => _home.Studio;

    public TemporaryStudio Home => _home;

    public Painting Painting { get; }

    /// <summary>The place of the first step, 400 cm2.</summary>
    public Guid Band { get; }

    public Proposals Proposals => new(Studio);

    public Approvals Approvals => new(Studio);

    public TreatmentSteps Steps => new(Studio);

    public TreatmentLog Log => new(Studio);

    public static Custodian Keeper { get; } = new("Ines Vaart", "keeper of paintings", "Invented Coast Museum");

    public static ProposedStep Step(string name, StepKind kind, string operation, params Guid[] zones) => new(Guid.CreateVersion7(), name, kind, operation, zones, "isooctane + ethanol 80:20", "the glaze may soften", "what is taken off is gone");

    public static string Square(double x, double y, double width, double height) => FormattableString.Invariant($$"""{"type":"Polygon","coordinates":[[[{{x}},{{y}}],[{{x + width}},{{y}}],[{{x + width}},{{y + height}}],[{{x}},{{y + height}}],[{{x}},{{y}}]]]}""");

    public Guid Zone(string name, double x, double y, double width, double height, Guid? painting = null) => new Zones(Studio).Create(painting ?? Painting.Id, new ZoneContent(name, "", "", Square(x, y, width, height))).Id;

    public ProposalContent Content() => new()
    {
        Title = "Taking off the yellow varnish", Reason = "The varnish hides the evening light.",
        Options =
        [
            new ProposalOption(Guid.CreateVersion7(), "Thin the varnish", "The light is seen again.", [Step("Varnish", StepKind.Cleaning, "clean/varnish removal", Band), Step("Losses", StepKind.Retouching, "integrate/inpainting", Band)],
                new GroundedRange(20, 30, "the log of another painting"), new GroundedRange(1800, 2500, "hours at the studio's rate"), "EUR"),
            new ProposalOption(Guid.CreateVersion7(), "Leave it", "Nothing is risked.", [], null, null, ""),
        ],
    };

    public Proposal Proposed() => Proposals.Create(Painting.Id, Content(), User);

    public Proposal Approved()
    {
        var proposal = Proposed();
        Approvals.Approve(proposal.Id, proposal.Revision, proposal.Content.Options[0].Id, Keeper, "signed letter of 1 March", "No work on the signature.", User);
        return proposal;
    }

    /// <summary>The steps of an approved proposal: cleaning, then retouching.</summary>
    public IReadOnlyList<TreatmentStep> Begun() => Steps.FromApproved(Approved().Id, User);

    public static LogEntryContent Entry(Guid step, int day = 0, double? hours = 2, params Guid[] zones) => new() { StepId = step, On = Day.AddDays(day), Who = "Marta Oud", What = "Swabs, rolled.", Hours = hours, Zones = zones };

    public LogEntry Write(LogEntryContent content, Guid? painting = null) => Log.Create(painting ?? Painting.Id, content, User);

    public void Dispose() => _home.Dispose();
}
