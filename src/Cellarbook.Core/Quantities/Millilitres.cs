namespace Cellarbook.Core.Quantities;

/// <summary>A volume stated in millilitres, as the size of a bottle is.</summary>
public readonly record struct Millilitres(Volume Volume)
{
    /// <summary>Decimal millilitres without needless zeros, such as "750".</summary>
    public string Text => ExactNumber.Write(Volume.Microlitres, 3);
}
