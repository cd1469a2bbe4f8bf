namespace Sandarac.Studio.Record;

/// <summary>A cleaning test: planned on a spot, then done, with what it did to each layer.</summary>
public sealed class CleaningTest : Written<CleaningTestContent>;

/// <summary>What kind of passage a spot lies in: colours answer differently, so a plan has both.</summary>
public enum Passage
{
    /// <summary>Light paint, lead white for instance.</summary>
    Light,

    /// <summary>Dark paint, often rich in medium and easily touched.</summary>
    Dark,

    /// <summary>A colour of its own, a glaze or a red lake for instance; named in the note.</summary>
    Particular,
}

/// <summary>What is to be reduced or removed, outermost first: going further than planned means beyond this.</summary>
public enum CleaningDepth
{
    /// <summary>Surface dirt.</summary>
    Dirt,

    /// <summary>Varnish.</summary>
    Varnish,

    /// <summary>Overpaint and retouching that are not the painter's.</summary>
    Overpaint,

    /// <summary>The painter's own paint: never an aim, only ever a result.</summary>
    Original,
}

/// <summary>What kind of agent is tried.</summary>
public enum AgentKind
{
    /// <summary>A solvent, or solvents mixed by volume.</summary>
    Solvent,

    /// <summary>Water with what is dissolved in it.</summary>
    Aqueous,

    /// <summary>Without liquid: a sponge, a scalpel.</summary>
    Dry,

    /// <summary>Anything else, named in the note.</summary>
    Other,
}

/// <summary>What a test did to one layer.</summary>
public enum TestEffect
{
    /// <summary>Nobody looked, or there is no such layer at that spot.</summary>
    NotStated,

    /// <summary>Nothing seen.</summary>
    None,

    /// <summary>Softened, swollen, blanched or dulled, nothing taken off.</summary>
    Softened,

    /// <summary>Part of it came off.</summary>
    Reduced,

    /// <summary>It came off.</summary>
    Removed,
}

/// <summary>What the conservator makes of a test.</summary>
public enum TestVerdict
{
    /// <summary>Not judged yet.</summary>
    Open,

    /// <summary>It did not do what it was to do.</summary>
    TooWeak,

    /// <summary>It did what it was to do, and nothing beyond was seen under the conditions of this test.</summary>
    AsIntended,

    /// <summary>It went further than planned.</summary>
    TooStrong,
}

/// <summary>A part of an agent.</summary>
/// <param name="Name">The solvent by the name of the table, or what is dissolved.</param>
/// <param name="Percent">Its share by volume, 0 to 100; the parts of a mixture sum to 100.</param>
public sealed record AgentPart(string Name, double Percent);

/// <summary>What is written of a cleaning test.</summary>
public sealed record CleaningTestContent
{
    /// <summary>1, 2, 3 on each painting in the order in which they were first written; given by the record.</summary>
    public int Number { get; init; }

    /// <summary>The zone that it is done in; null when only a point is known.</summary>
    public Guid? ZoneId { get; init; }

    /// <summary>Middle of the spot, mm from the left edge; null when it is the zone's.</summary>
    public double? X { get; init; }

    /// <summary>Middle of the spot, mm from the upper edge.</summary>
    public double? Y { get; init; }

    /// <summary>Area of the spot, mm2; null when nobody measured.</summary>
    public double? AreaMm2 { get; init; }

    /// <summary>What kind of passage it lies in.</summary>
    public Passage Passage { get; init; } = Passage.Light;

    /// <summary>What is to come off; nothing below it is to be touched.</summary>
    public CleaningDepth Aim { get; init; } = CleaningDepth.Dirt;

    /// <summary>What kind of agent.</summary>
    public AgentKind AgentKind { get; init; } = AgentKind.Aqueous;

    /// <summary>What it consists of; one part of 100 % for a single one.</summary>
    public IReadOnlyList<AgentPart> Agent { get; init; } = [];

    /// <summary>What is to be known of it beside: pH, conductivity, batch.</summary>
    public string AgentNote { get; init; } = "";

    /// <summary>What carries it: "cotton swab, rolled", "gel of 3 % agarose under film".</summary>
    public string Carrier { get; init; } = "";

    /// <summary>How long it is to act, seconds.</summary>
    public double? PlannedSeconds { get; init; }

    /// <summary>The day on which it was done; null while it is only planned.</summary>
    public DateOnly? DoneOn { get; init; }

    /// <summary>Who did it.</summary>
    public string DoneBy { get; init; } = "";

    /// <summary>How long it acted, seconds.</summary>
    public double? Seconds { get; init; }

    /// <summary>What it did to dirt.</summary>
    public TestEffect OnDirt { get; init; } = TestEffect.NotStated;

    /// <summary>What it did to varnish.</summary>
    public TestEffect OnVarnish { get; init; } = TestEffect.NotStated;

    /// <summary>What it did to overpaint.</summary>
    public TestEffect OnOverpaint { get; init; } = TestEffect.NotStated;

    /// <summary>What it did to the painter's paint.</summary>
    public TestEffect OnOriginal { get; init; } = TestEffect.NotStated;

    /// <summary>Colour of the swab: yellow of varnish, grey of dirt, or a colour of the paint.</summary>
    public string SwabColour { get; init; } = "";

    /// <summary>Whether the swab took a colour of the paint; null when nobody said.</summary>
    public bool? SwabTookPaint { get; init; }

    /// <summary>What the spot looks like in ultraviolet afterwards.</summary>
    public string UltravioletAfter { get; init; } = "";

    /// <summary>Photographs of it.</summary>
    public IReadOnlyList<Guid> Photographs { get; init; } = [];

    /// <summary>What is made of it.</summary>
    public TestVerdict Verdict { get; init; } = TestVerdict.Open;

    /// <summary>Free words.</summary>
    public string Note { get; init; } = "";
}
