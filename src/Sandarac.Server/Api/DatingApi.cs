using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Calibration;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Datings;
using Sandarac.Studio.Datings.Drawing;
using Sandarac.Studio.Record;

namespace Sandarac.Server.Api;

/// <summary>A material with its years held against the painting's; verdict and what follows are null for one that the table does not have.</summary>
internal sealed record MaterialDatedShape(Guid Id, string Material, string Where, string? Verdict, string? Reason, string? Question, string? Placed, string? Source, string? Flag);

/// <summary>What the analysis of a spectrum gives, without its channels.</summary>
internal sealed record SpectrumShape(int Version, string Title, EnergyCalibration Calibration, Stated FwhmEv, Stated LimitKev, IReadOnlyList<SpectrumPeak> Peaks, IReadOnlyList<ElementFound> Elements, IReadOnlyList<Warning> Warnings, string Caution);

/// <summary>Spectra, materials and the dating check.</summary>
internal static class DatingApi
{
    public static void MapDating(this RouteGroupBuilder api)
    {
        api.MapWritten("spectra", studio => new MeasuredSpectra(studio));
        api.MapWritten("materials", studio => new MaterialsFound(studio));
        api.MapPost("/paintings/{id:guid}/spectrum-files", async (Guid id, string file, string? name, string? anode, string? kv, string? beam, string? fwhm, string? calibrate, OpenStudio studio, HttpRequest request, HttpResponse response) =>
            WrittenApi.Answer(new MeasuredSpectra(studio).Take(id, (await FileBody.ReadAsync(request)).ToArray(), file, new SpectrumContent { Name = name ?? "", Parameters = Parameters(anode, kv, beam, fwhm, calibrate) }, Environment.UserName), response, StatusCodes.Status201Created))
            .Accepts<byte[]>("application/octet-stream", "text/plain").WithSummary("Takes a spectrum's file, the body, into the record and analyses it").Produces<WrittenShape<SpectrumContent>>(StatusCodes.Status201Created);
        api.MapGet("/spectra/{id:guid}/analysis", (Guid id, OpenStudio studio) => Shape(new MeasuredSpectra(studio).Analysed(new MeasuredSpectra(studio).Find(id)))).WithSummary("Scale, peaks and elements of a spectrum, made again from its file");
        api.MapGet("/spectra/{id:guid}/plot.svg", (Guid id, OpenStudio studio) => Results.Text(SpectrumDrawing.Draw(new MeasuredSpectra(studio).Analysed(new MeasuredSpectra(studio).Find(id))), "image/svg+xml")).WithSummary("The spectrum with its background and lines, as SVG");
        api.MapGet("/paintings/{id:guid}/dating", (Guid id, OpenStudio studio) => new DatingDesk(studio).Of(id).Select(Shape).ToList()).WithSummary("A painting's materials with their years held against its own");
        api.MapGet("/paintings/{id:guid}/dating.svg", (Guid id, OpenStudio studio) => Results.Text(TimelineDrawing.Draw(DatingDesk.Checks(new DatingDesk(studio).Of(id))), "image/svg+xml")).WithSummary("The years of a painting's materials beside its own, as SVG");
    }

    /// <summary>The parameters that were given.</summary>
    public static Dictionary<string, string> Parameters(string? anode, string? kv, string? beam, string? fwhm, string? calibrate) =>
        new[] { ("anode", anode), ("kv", kv), ("beam", beam), ("fwhm", fwhm), ("calibrate", calibrate) }.Where(p => !string.IsNullOrWhiteSpace(p.Item2)).ToDictionary(p => p.Item1, p => p.Item2!.Trim());

    private static MaterialDatedShape Shape(MaterialDated m) => new(m.Found.Id, m.Found.Content.Material, m.Where, m.Check is { } c ? TimelineDrawing.Words(c.Verdict) : null, m.Check?.Reason, m.Check?.Question, m.Placed, m.Check?.Pigment.Source, m.Check?.Pigment.Flag);

    private static SpectrumShape Shape(SpectrumResult r) => new(r.Version, r.Title, r.Calibration, r.FwhmEv, r.LimitKev, r.Peaks, r.Elements, r.Warnings, SpectrumResult.Caution);
}
