using System.Runtime.ExceptionServices;
using Sandarac.Imaging.Formats;
using Sandarac.Imaging.Tiles;

namespace Sandarac.Imaging.Storing;

/// <summary>Takes a photograph in: an exact copy with its hash, and its pyramid, made side by side.</summary>
public static class Ingest
{
    /// <summary>What was taken in.</summary>
    /// <param name="Sha256">Hash of the original, lower-case hexadecimal.</param>
    /// <param name="Bytes">Its length.</param>
    /// <param name="Facts">What its header says.</param>
    public sealed record Result(string Sha256, long Bytes, ImageFacts Facts);

    /// <summary>Copies and hashes the original while its pyramid is made from it.</summary>
    /// <param name="source">The photograph.</param>
    /// <param name="copy">The copy to make.</param>
    /// <param name="pyramid">The pyramid to make.</param>
    /// <param name="limits">What the file may ask of this machine.</param>
    /// <param name="progress">0 to 1.</param>
    /// <param name="cancellation">Cancels.</param>
    /// <exception cref="InputProblem">The file cannot be used, changed meanwhile, or the disk is full; neither file is left behind.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; neither file is left behind.</exception>
    public static Result Run(string source, string copy, string pyramid, ImageLimits? limits = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        using var image = ImageFile.Open(source, limits);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        var copying = Task.Run(() => CopyOrStop(source, copy, stop), CancellationToken.None);
        try
        {
            PyramidFile.Write(image, pyramid, progress, stop.Token);
            var (sha256, bytes) = copying.GetAwaiter().GetResult();
            return new Result(sha256, bytes, image.Facts);
        }
        catch (Exception e)
        {
            stop.Cancel();
            Task.WhenAny(copying).GetAwaiter().GetResult();
            File.Delete(pyramid);
            File.Delete(copy);
            // Whichever failed first stopped the other: say why, not that.
            if (e is OperationCanceledException && copying.Exception?.InnerException is { } first and not OperationCanceledException) ExceptionDispatchInfo.Throw(first);
            throw;
        }
    }

    private static (string Sha256, long Bytes) CopyOrStop(string source, string copy, CancellationTokenSource stop)
    {
        try
        {
            return HashingCopy.Copy(source, copy, null, stop.Token);
        }
        catch
        {
            stop.Cancel();
            throw;
        }
    }
}
