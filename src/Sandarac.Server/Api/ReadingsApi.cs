using Sandarac.Analysis.Declaring;

namespace Sandarac.Server.Api;

/// <summary>A reading in a list.</summary>
internal sealed record ReadingInList(string Id, int Version, string Title, string Summary, bool OnPlane, bool RunsOnExamine);

/// <summary>An input: lights it takes (empty for any) and how many photographs.</summary>
internal sealed record InputShape(string Name, string Help, IReadOnlyList<string> Lights, int Minimum, int Maximum);

/// <summary>A parameter: type "number", "integer", "length" (mm), "choice" or "flag".</summary>
internal sealed record ParameterShape(string Name, string Label, string Help, string Type, string? Unit, string Default, string Range,
    double? Minimum, double? Maximum, IReadOnlyList<string>? Choices)
{
    public static ParameterShape Of(Parameter p) => new(p.Name, p.Label, p.Help, p.Type, p.Unit, p.DefaultText, p.RangeText,
        Bounds(p)?.Minimum, Bounds(p)?.Maximum, (p as ChoiceParameter)?.Choices);

    /// <summary>Smallest and largest value of a parameter that is a number.</summary>
    public static (double Minimum, double Maximum)? Bounds(Parameter parameter) => parameter switch
    {
        NumberParameter p => (p.Minimum, p.Maximum),
        IntegerParameter p => (p.Minimum, p.Maximum),
        LengthParameter p => (p.Minimum, p.Maximum),
        _ => null,
    };
}

/// <summary>A raster that a reading writes.</summary>
internal sealed record RasterShape(string Name, string Title, string Unit, IReadOnlyList<string> Bands, string? Light);

/// <summary>What a reading says of itself.</summary>
internal sealed record ReadingShape(string Id, int Version, string Title, string Summary, string Citation, string Limits, bool OnPlane, bool RunsOnExamine,
    IReadOnlyList<InputShape> Inputs, IReadOnlyList<ParameterShape> Parameters, IReadOnlyList<RasterShape> Rasters, IReadOnlyList<FigureOutput> Figures);

/// <summary>Readings, as they declare themselves.</summary>
internal static class ReadingsApi
{
    public static void MapReadings(this RouteGroupBuilder api)
    {
        api.MapGet("/readings", List).WithSummary("All readings");
        api.MapGet("/readings/{id}", Get).WithSummary("One reading: inputs, parameters, rasters, figures");
    }

    private static IReadOnlyList<ReadingInList> List() => [.. ReadingCatalogue.All.Select(r => r.Declaration)
        .Select(d => new ReadingInList(d.Id, d.Version, d.Title, d.Summary, d.OnPlane, d.RunsOnExamine))];

    private static ReadingShape Get(string id)
    {
        var d = ReadingCatalogue.Find(id).Declaration;
        return new ReadingShape(d.Id, d.Version, d.Title, d.Summary, d.Citation, d.Limits, d.OnPlane, d.RunsOnExamine,
            [.. d.Inputs.Select(i => new InputShape(i.Name, i.Help, [.. i.Lights.Select(l => l.Code)], i.Minimum, i.Maximum))],
            [.. d.Parameters.Select(ParameterShape.Of)],
            [.. d.Rasters.Select(r => new RasterShape(r.Name, r.Title, r.Unit, r.Bands, r.Light?.Code))], d.Figures);
    }
}
