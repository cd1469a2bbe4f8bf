using Sandarac.Imaging;
using Sandarac.Imaging.Geometry;
using Sandarac.Studio.Record;

namespace Sandarac.Studio;

/// <summary>Puts photographs on the plane.</summary>
public sealed class Aligning(OpenStudio studio)
{
    /// <summary>The alignment in force; null before the first.</summary>
    public Alignment? InForce(Guid photographId) => throw new NotImplementedException(studio.Folder + photographId);

    /// <summary>Queues an alignment by corners that a person set.</summary>
    /// <param name="photographId">The photograph.</param>
    /// <param name="corners">Upper left, upper right, lower right, lower left of the painted face, pixels.</param>
    /// <param name="userName">Who set them.</param>
    /// <returns>The queued run; <see cref="Running.Execute"/> carries it out.</returns>
    /// <exception cref="InputProblem">No such photograph; not four corners, or not in that order.</exception>
    public Run QueueByHand(Guid photographId, IReadOnlyList<Point2> corners, string userName) => throw new NotImplementedException($"{photographId}{corners}{userName}");
}
