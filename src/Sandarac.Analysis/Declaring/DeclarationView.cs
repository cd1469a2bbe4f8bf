namespace Sandarac.Analysis.Declaring;

/// <summary>A declaration as plain data: what the API sends, what a form is made from, and what `sandarac readings --json` prints (camel case).</summary>
/// <param name="Id">Stable id.</param>
/// <param name="Version">Version.</param>
/// <param name="Title">What a person calls it.</param>
/// <param name="Summary">One line.</param>
/// <param name="Citation">Source of the method.</param>
/// <param name="Limits">When not to use it.</param>
/// <param name="Reach">"pointwise", "halo N px", "whole image in blocks of N px" or "whole image at most N px".</param>
/// <param name="RunsOnExamine">Whether an examination runs it by itself.</param>
/// <param name="OnPlane">Whether its inputs must be aligned.</param>
/// <param name="Inputs">Input slots.</param>
/// <param name="Parameters">Parameters.</param>
/// <param name="Rasters">Rasters it writes.</param>
/// <param name="Figures">Figures it gives.</param>
public sealed record DeclarationView(string Id, int Version, string Title, string Summary, string Citation, string Limits, string Reach, bool RunsOnExamine,
    bool OnPlane, IReadOnlyList<InputView> Inputs, IReadOnlyList<ParameterView> Parameters, IReadOnlyList<RasterView> Rasters, IReadOnlyList<FigureOutput> Figures)
{
    /// <summary>The view of a declaration.</summary>
    public static DeclarationView Of(Declaration d) => new(d.Id, d.Version, d.Title, d.Summary, d.Citation, d.Limits, Text(d.Reach), d.RunsOnExamine, d.OnPlane,
        [.. d.Inputs.Select(s => new InputView(s.Name, s.Help, [.. s.Lights.Select(l => l.Code)], s.Minimum, s.Maximum == int.MaxValue ? null : s.Maximum))],
        [.. d.Parameters.Select(ParameterView.Of)],
        [.. d.Rasters.Select(r => new RasterView(r.Name, r.Title, r.Unit, r.Bands, r.Light?.Code))],
        d.Figures);

    private static string Text(Reach reach) => reach switch
    {
        Declaring.Reach.Pointwise => "pointwise",
        Declaring.Reach.Halo h => $"halo {h.Pixels} px",
        Declaring.Reach.Blocks b => $"whole image in blocks of {b.Pixels} px",
        Declaring.Reach.Whole w => $"whole image at most {w.LongestSide} px",
        _ => throw new ArgumentOutOfRangeException(nameof(reach)),
    };
}

/// <summary>An input slot as plain data.</summary>
/// <param name="Name">Name.</param>
/// <param name="Help">One sentence.</param>
/// <param name="Lights">Codes of the lights it takes; empty for any.</param>
/// <param name="Minimum">Fewest images.</param>
/// <param name="Maximum">Most images; null for no limit.</param>
public sealed record InputView(string Name, string Help, IReadOnlyList<string> Lights, int Minimum, int? Maximum);

/// <summary>A parameter as plain data.</summary>
/// <param name="Name">Name.</param>
/// <param name="Type">"number", "integer", "length", "choice", "flag" or "document".</param>
/// <param name="Label">What a form calls it.</param>
/// <param name="Help">One or two sentences.</param>
/// <param name="Unit">Unit; null for none.</param>
/// <param name="Default">The default as text.</param>
/// <param name="Range">The permitted values in words.</param>
/// <param name="Minimum">Least value of a number; null otherwise.</param>
/// <param name="Maximum">Greatest value of a number; null otherwise.</param>
/// <param name="Choices">The choices; null otherwise.</param>
public sealed record ParameterView(string Name, string Type, string Label, string Help, string? Unit, string Default, string Range,
    double? Minimum, double? Maximum, IReadOnlyList<string>? Choices)
{
    internal static ParameterView Of(Parameter p)
    {
        var (minimum, maximum) = p switch
        {
            NumberParameter n => (n.Minimum, n.Maximum),
            IntegerParameter i => (i.Minimum, i.Maximum),
            LengthParameter l => (l.Minimum, l.Maximum),
            _ => ((double?)null, (double?)null),
        };
        return new ParameterView(p.Name, p.Type, p.Label, p.Help, p.Unit, p.DefaultText, p.RangeText, minimum, maximum, (p as ChoiceParameter)?.Choices);
    }
}

/// <summary>A raster output as plain data.</summary>
/// <param name="Name">Name.</param>
/// <param name="Title">What a person calls it.</param>
/// <param name="Unit">Unit of its values.</param>
/// <param name="Bands">Its bands.</param>
/// <param name="Light">The light code under which it is listed, when it is a picture.</param>
public sealed record RasterView(string Name, string Title, string Unit, IReadOnlyList<string> Bands, string? Light);
