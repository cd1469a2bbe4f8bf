using Sandarac.Studio.Record;

namespace Sandarac.Studio.Documents;

internal sealed class DocumentPictures(OpenStudio studio, DocumentContent content)
{
    public Markup? Frontispiece() => throw new NotImplementedException($"{studio}{content}");

    public Markup Of(Photograph photograph) => throw new NotImplementedException($"{photograph}");

    public Markup Of(Layer layer) => throw new NotImplementedException($"{layer}");
}
