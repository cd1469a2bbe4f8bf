using Sandarac.Imaging;

namespace Sandarac.Studio;

/// <summary>A folder of photographs in, a measured examination out.</summary>
public sealed class Examining(OpenStudio studio)
{
    /// <summary>
    /// Imports a folder's photographs, puts them on the plane, runs the readings that apply and writes the first document. Examining the same
    /// folder again continues where the last time ended. One photograph's failure never stops the others.
    /// </summary>
    /// <exception cref="InputProblem">The folder is missing or holds no photograph; a size that is not one; a faulty photographs.csv.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; what was imported stays.</exception>
    public Examination Examine(string folder, ExamineOptions options, IProgress<ExamineProgress>? progress = null, CancellationToken cancellation = default) =>
        throw new NotImplementedException($"{studio.Folder}{folder}{options}{progress}{cancellation}");
}
