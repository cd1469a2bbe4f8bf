using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Analysis.Relief;

/// <summary>From where lamps' places are known: what a person states comes first, then a ball in the frame, then what the photographs' names and records say.</summary>
/// <param name="Stated">Lamps that a person states.</param>
/// <param name="Elevation">Elevation of lamps of which none is known, degrees; 0 when that is not stated either.</param>
/// <param name="Ball">A ball in the frame; null for none.</param>
/// <param name="IsMirror">Whether it mirrors; else it is matte.</param>
/// <param name="Estimate">Whether lamps that are not known are estimated from the photographs.</param>
internal sealed record LampSources(LampList Stated, double Elevation, LampBall? Ball, bool IsMirror, bool Estimate)
{
    private static readonly NumberParameter ElevationGiven = new("elevation", "Lamps' elevation", "Degrees above the painting's plane, for lamps of which none is known; 0 for none.", "degrees", 0, 0, 90);
    private static readonly DocumentParameter LampsGiven = new("lamps", "Lamps", "A table with the columns file, azimuth, elevation (degrees) or file, x, y, z (mm from the upper left corner: right, down, in front); it outranks what the photographs' names and records say.", "CSV", LampList.Canonical);
    private static readonly ChoiceParameter BallGiven = new("ball", "Ball in the frame", "A ball beside the painting from which each photograph's lamp is measured: a mirror ball, a matte one, or none.", "none", ["none", "mirror", "matte"]);
    private static readonly NumberParameter BallX = new("ball-x", "Ball's middle from the left", "In pixels of the images.", "px", 0, 0, 200000);
    private static readonly NumberParameter BallY = new("ball-y", "Ball's middle from above", "In pixels of the images.", "px", 0, 0, 200000);
    private static readonly NumberParameter BallRadius = new("ball-radius", "Ball's radius", "In pixels of the images.", "px", 0, 0, 100000);
    private static readonly FlagParameter EstimateLamps = new("estimate-lamps", "Estimate unknown lamps", "Estimates where lamps stood that nobody knows, from the photographs, at the stated elevation: five lamps at least, all at one height. Hills and hollows may come out exchanged.", false);

    /// <summary>The parameters by which a reading of the surface is told of lamps.</summary>
    public static IReadOnlyList<Parameter> Parameters { get; } = [ElevationGiven, LampsGiven, BallGiven, BallX, BallY, BallRadius, EstimateLamps];

    public static LampSources Of(RunContext context)
    {
        var kind = context.Value(BallGiven);
        if (kind != "none" && !(context.Value(BallRadius) > 0)) throw new InputProblem("ball-circle", BallRadius.Name, "Where the ball lies is not stated.", "Give its middle and radius in pixels: ball-x, ball-y, ball-radius.");
        return new LampSources(LampList.Read(context.Value(LampsGiven)), context.Value(ElevationGiven), kind == "none" ? null : new LampBall(context.Value(BallX), context.Value(BallY), context.Value(BallRadius)), kind == "mirror", context.Value(EstimateLamps));
    }

    /// <summary>The lamp of a photograph; null where its azimuth is not known and estimating is allowed.</summary>
    /// <exception cref="InputProblem">Neither azimuth nor elevation may stay unknown.</exception>
    public Lamp? Of(InputImage image)
    {
        if (Stated.LampOf(image.Name) is { } stated) return stated;
        if (Ball is not null) return FromBall(image, Ball);
        if (image.Lamp is not { } lamp)
            return Estimate ? null : throw new InputProblem("lamp-unknown", image.Name, $"Where the lamp of {image.Name} stood is not known.", "State it: in the file's name (az315_el15), in photographs.csv, or with the parameter lamps; or let it be estimated (estimate-lamps).");
        return (lamp.Elevation ?? (Elevation > 0 ? Elevation : null)) is { } height ? Lamp.FromAngles(lamp.Azimuth, height)
            : throw new InputProblem("lamp-elevation", image.Name, $"How high the lamp of {image.Name} stood is not known.", "State it in the file's name (el15), in photographs.csv, or with the parameter elevation for all.");
    }

    private Lamp FromBall(InputImage image, LampBall ball)
    {
        var (facts, reach) = (image.Image.Facts, ball.Radius + 1);
        var (left, top) = (Math.Clamp((int)(ball.CentreX - reach), 0, facts.Width - 1), Math.Clamp((int)(ball.CentreY - reach), 0, facts.Height - 1));
        var (right, bottom) = (Math.Clamp((int)(ball.CentreX + reach), left + 1, facts.Width), Math.Clamp((int)(ball.CentreY + reach), top + 1, facts.Height));
        var light = new RakingFrame(image, null, keepClipped: true).Of(image.Image.ReadWindow(left, top, right - left, bottom - top), left, top).Light;
        var shown = ball with { CentreX = ball.CentreX - left, CentreY = ball.CentreY - top };
        return IsMirror ? shown.FromMirror(light) : shown.FromMatte(light);
    }
}
