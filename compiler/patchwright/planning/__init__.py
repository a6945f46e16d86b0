"""Design → Plan: instances, the top, pieces, cloth, finishing; and the independent check of what came out."""
