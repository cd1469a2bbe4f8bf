using Sandarac.Studio.Record;

namespace Sandarac.Studio.Jobs;

internal sealed class AligningBody(OpenStudio studio, StudioDb db, Run run)
{
    public void Work(RunResults results, CancelWatch watch) => throw new NotImplementedException($"{studio}{db}{run}{results}{watch}");
}
