using Sandarac.Imaging;

namespace Sandarac.Materials.Wood;

/// <summary>A board of a panel.</summary>
/// <param name="Shrinkage">Its wood.</param>
/// <param name="WidthMm">Its width across the grain, in mm.</param>
/// <param name="RingAngle">Degrees between its width and the radial direction: 0 radial, 90 tangential.</param>
public sealed record Board(WoodShrinkage Shrinkage, double WidthMm, double RingAngle);

/// <summary>Air that a panel comes to rest in.</summary>
/// <param name="RelativeHumidity">Per cent.</param>
/// <param name="Temperature">Degrees C.</param>
public readonly record struct Climate(double RelativeHumidity, double Temperature);

/// <summary>How far a board moves.</summary>
/// <param name="Board">The board.</param>
/// <param name="ChangeMm">Change of width in mm: less than 0 when it shrinks.</param>
/// <param name="LeastMm">The change at the end of its interval that is nearer to none.</param>
/// <param name="MostMm">The change at the other end.</param>
public sealed record BoardMovement(Board Board, double ChangeMm, double LeastMm, double MostMm);

/// <summary>
/// Free movement of a panel across the grain between two climates: dD = D S dMC / FSP for each board (formula and fibre saturation point from MEMORY; S from the table), summed over the boards.
/// </summary>
/// <param name="FromMoisture">Moisture content at first, per cent of the dry mass.</param>
/// <param name="ToMoisture">Moisture content in the end.</param>
/// <param name="Boards">Each board.</param>
public sealed record PanelMovement(double FromMoisture, double ToMoisture, IReadOnlyList<BoardMovement> Boards)
{
    /// <summary>Moisture content in per cent at which wood begins to shrink. From memory.</summary>
    public const double FibreSaturation = 28;

    /// <summary>Where the formula comes from and what its interval holds. Shown beside the results.</summary>
    public const string Source =
        "dD = D S dMC / FSP, fibre saturation point 28 %: MEMORY, not verified. Interval: S +- 30 % (twice the 15 % by which single pieces of one wood vary, MEMORY) and FSP +- 3, combined in squares; boards of one panel may all lie to one side";

    /// <summary>What must be said wherever a movement is shown.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "This is the movement of bare, unrestrained wood that has come to rest in both climates: an upper estimate. Paint, ground, varnish and old wood slow and lessen it; a panel takes days to months to come to rest.",
        "A cradle, battens, a tight frame or a second wood hold the panel back: then it does not move by this much but is strained, and may crack, bend or lift its paint instead. How much it bears no figure here says.",
        "A panel that moves unevenly, front and back, bends; this is not computed. A conservator of panels decides what the climate may be.",
    ];

    private const int MostBoards = 100;
    private const double VariationOfShrinkage = 0.30, DoubtOfSaturation = 3;

    /// <summary>Change of the panel's width in mm.</summary>
    public double ChangeMm => Boards.Sum(b => b.ChangeMm);

    /// <summary>The end of its interval nearer to none.</summary>
    public double LeastMm => Boards.Sum(b => b.LeastMm);

    /// <summary>The other end.</summary>
    public double MostMm => Boards.Sum(b => b.MostMm);

    /// <summary>Between two climates.</summary>
    /// <exception cref="InputProblem">A humidity, temperature, width or angle that is none ("number-out-of-range"); no boards ("no-boards").</exception>
    public static PanelMovement Between(IReadOnlyList<Board> boards, Climate from, Climate to) =>
        Between(boards, MoistureContent.Equilibrium(from.Temperature, from.RelativeHumidity), MoistureContent.Equilibrium(to.Temperature, to.RelativeHumidity));

    /// <summary>Between two moisture contents in per cent; above fibre saturation wood does not move.</summary>
    /// <exception cref="InputProblem">A moisture content below 0, a width that is not above 0, an angle outside 0 to 90 ("number-out-of-range"); no boards ("no-boards").</exception>
    public static PanelMovement Between(IReadOnlyList<Board> boards, double fromMoisture, double toMoisture)
    {
        if (boards.Count is 0 or > MostBoards) throw new InputProblem("no-boards", "boards", $"A panel has 1 to {MostBoards} boards.", "Give each board's width across the grain.");
        foreach (var board in boards) (_, _) = (Given.Within(board.WidthMm, 1, 10_000, "board width", "mm"), Given.Within(board.RingAngle, 0, 90, "ring angle", "degrees"));
        double Moist(double content) => Math.Min(Given.NotNegative(content, "moisture content", "per cent of the dry mass"), FibreSaturation);
        var share = (Moist(toMoisture) - Moist(fromMoisture)) / FibreSaturation;
        var doubt = Math.Sqrt(VariationOfShrinkage * VariationOfShrinkage + Math.Pow(DoubtOfSaturation / FibreSaturation, 2));
        return new PanelMovement(fromMoisture, toMoisture, [.. boards.Select(b => Moved(b, b.WidthMm * b.Shrinkage.PercentAt(b.RingAngle) / 100 * share, doubt))]);
    }

    private static BoardMovement Moved(Board board, double change, double doubt) => new(board, change, change * (1 - doubt), change * (1 + doubt));
}
