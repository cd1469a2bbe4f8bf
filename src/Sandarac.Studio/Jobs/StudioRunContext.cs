using Sandarac.Analysis.Declaring;
using Sandarac.Imaging;

namespace Sandarac.Studio.Jobs;

/// <summary>A run whose rasters go into the studio.</summary>
internal sealed class StudioRunContext(OpenStudio studio, Declaration declaration, Arguments arguments, InputSet inputs, RunResults results, IProgress<double>? progress, CancellationToken cancellation)
    : RunContext(declaration, arguments, inputs.Images, progress, cancellation)
{
    protected override IRasterWriter CreateRaster(RasterOutput output, int width, int height, PixelScale? scale) => 
        results.Add(new RasterFile(studio.Objects.NewTemporaryPath(), output, width, height, scale, inputs.Extent));
}
