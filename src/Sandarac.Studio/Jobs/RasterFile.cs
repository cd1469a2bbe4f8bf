using Sandarac.Studio.Storage;

namespace Sandarac.Studio.Jobs;

internal sealed class RasterFile : IDisposable
{
    public MadeRaster Finish(ObjectStore objects) => throw new NotImplementedException(objects.ToString());

    public void Dispose()
    {
    }
}
