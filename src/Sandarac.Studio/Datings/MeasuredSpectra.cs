using Sandarac.Analysis.Spectra;
using Sandarac.Analysis.Spectra.Elements;
using Sandarac.Analysis.Spectra.Files;
using Sandarac.Imaging;
using Sandarac.Studio.Places;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Datings;

/// <summary>X-ray fluorescence spectra of a painting: the file untouched in the store, what its analysis was told, and the elements that it listed with the analysis' version.</summary>
public sealed class MeasuredSpectra(OpenStudio studio) : WrittenRecords<MeasuredSpectrum, SpectrumContent>(studio, "spectrum")
{
    /// <summary>Takes a file in and analyses it.</summary>
    /// <param name="paintingId">The painting.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="fileName">Its name.</param>
    /// <param name="content">What is written of it; its file and elements are filled in.</param>
    /// <param name="userName">Who takes it in.</param>
    /// <exception cref="InputProblem">"unknown-painting"; the file is no spectrum that can be used; what is wrong with the content. Nothing is kept then.</exception>
    public MeasuredSpectrum Take(Guid paintingId, ReadOnlySpan<byte> bytes, string fileName, SpectrumContent content, string userName)
    {
        var name = Path.GetFileName(fileName);
        SpectrumFile.Parse(bytes, name);
        var file = Studio.Objects.NewTemporaryPath();
        try
        {
            File.WriteAllBytes(file, bytes);
            var stored = Studio.Objects.Adopt(file, null, "text/plain", isDerived: false);
            using var db = Studio.CreateDb();
            db.RequirePainting(paintingId);
            var row = Add(db, paintingId, content with { FileName = name, Sha256 = stored.Sha256, Name = string.IsNullOrWhiteSpace(content.Name) ? Path.GetFileNameWithoutExtension(name) : content.Name }, userName);
            db.SaveWithObjects([stored]);
            Studio.Objects.Confirm(stored.Sha256);
            return row;
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>The whole analysis of a spectrum, made from its file when it was not made lately: the same file, parameters and version give the same numbers.</summary>
    /// <exception cref="InputProblem">The file is missing or damaged.</exception>
    public SpectrumResult Analysed(MeasuredSpectrum spectrum) => Analysed(spectrum.Content);

    private protected override MeasuredSpectrum Make(Guid paintingId, DateTime now) => new() { PaintingId = paintingId, CreatedAt = now };

    private protected override void Prepare(MeasuredSpectrum row, SpectrumContent content)
    {
        if (!IsListed(row.Content, content) && HasFile(content)) Analysed(content with { FileName = content.FileName.Trim() });
    }

    /// <summary>Elements are never taken from whoever writes: they are listed by the analysis, again whenever file, parameters or version differ.</summary>
    private protected override SpectrumContent Checked(StudioDb db, MeasuredSpectrum row, SpectrumContent content)
    {
        if (!HasFile(content)) throw Wrong("spectrum-file", content.FileName, "The spectrum's file is not in the store.", "Take the file in again.");
        if (row.Revision > 0 && row.Content.Sha256 is { Length: > 0 } before && before != content.Sha256) throw Wrong("spectrum-file", content.FileName, "A spectrum's file does not change.", "Take the other file in as another spectrum.");
        if (content.ZoneId is { } zone) Relations.RequireZone(db, row.PaintingId, zone);
        if (content.LayerId is { } layer) MaterialsFound.RequireLayer(db, row.PaintingId, layer);
        OnTheFace.Require(db.RequirePainting(row.PaintingId), content.X, content.Y, "spectrum-place");
        content = content with { Name = Name("name", content.Name), FileName = Name("fileName", content.FileName) };
        return IsListed(row.Content, content) ? content with { Elements = row.Content.Elements, AnalysisVersion = row.Content.AnalysisVersion }
            : content with { Elements = [.. Analysed(content).Elements.Where(e => e.Confidence != ElementConfidence.CannotBeTold).Select(e => new SpectrumElement(e.Element, Sure(e.Confidence), e.Reason))], AnalysisVersion = SpectrumAnalysis.Version };
    }

    private bool HasFile(SpectrumContent content) => content.Sha256.Length == 64 && Studio.Objects.Contains(content.Sha256);

    private static bool IsListed(SpectrumContent before, SpectrumContent now) => before.AnalysisVersion == SpectrumAnalysis.Version && before.Sha256 == now.Sha256
        && before.Parameters.OrderBy(p => p.Key, StringComparer.Ordinal).SequenceEqual(now.Parameters.OrderBy(p => p.Key, StringComparer.Ordinal));

    private SpectrumResult Analysed(SpectrumContent content) => Studio.Spectra.Of(content, () =>
    {
        using var stream = Studio.Objects.OpenRead(content.Sha256, verify: true);
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return SpectrumAnalysis.Run(SpectrumFile.Parse(bytes.ToArray(), content.FileName), SpectrumParameters.Read(content.Parameters));
    });

    private static Certainty Sure(ElementConfidence confidence) => confidence switch { ElementConfidence.Certain => Certainty.Certain, ElementConfidence.Probable => Certainty.Probable, _ => Certainty.Possible };
}
